// A walk in progress: what the screen shows, and the grammar of its taps.
//
// A head needs a reading and a share, in either order; whichever comes second
// saves it. Boot needs no share and is saved by its tap alone. "Same again"
// saves the last head once more.

import { v7 as uuidv7 } from 'uuid';

import { call, type CallProblem } from '../call';
import type {
  Flag,
  Head,
  HeadSaved,
  NewHead,
  PhotoAdded,
  PhotoOf,
  Place,
  Reading,
  Request,
  StopView,
  UndoWhat,
  WalkPage,
} from '../contract';
import { Action } from '../frame/action.svelte';
import { keepPhoto } from '../photos/keep-photo';
import { Outbox } from './outbox.svelte';
import { worthTelling } from './stop-place';

/** So long after the last tap at a stop a position may still be that stop's. */
const AT_STOP_MS = 3 * 60_000;

/** A head in the row of a stop, stored or not yet. */
export interface ShownHead {
  id: string;
  number: number;
  head: Head;
  flags: readonly Flag[];
  note: string | null;
  corrected: boolean;
  state: 'saved' | 'saving' | 'unsaved';
}

type WalkRequest = Extract<
  Request,
  { op: 'walk' | 'undo' | 'remove_head' | 'finish_walk' | 'reopen_walk' | 'place_stop' | 'correct_walk_date' }
>;

export class WalkSession {
  page = $state.raw<WalkPage>()!;
  /** Place of the stop shown among the stops. */
  stopAt = $state(0);
  /** Share set for the next head, or of the head being changed. */
  share = $state<number | null>(null);
  /** Reading tapped before the share. */
  reading = $state<Reading | null>(null);
  /** Head being changed. */
  editing = $state<string | null>(null);
  /** Whether the walk could not be finished, because something is unsaved. */
  blocked = $state(false);
  /** Said by screen readers after a tap. */
  said = $state<{ kind: 'saved'; head: Head } | { kind: 'undone'; what: UndoWhat } | { kind: 'removed' } | null>(null);

  readonly outbox: Outbox;
  readonly #asking = new Action();
  // Of the undo whose reply may have been lost: sent again, it does nothing twice.
  #undoing: string | null = null;
  // Where and when the scout last did something: only then is a position the stop's.
  #touched: { stop: string; at: number } | null = null;

  constructor(page: WalkPage, store: Storage) {
    this.outbox = new Outbox(store, page.id, {
      takePage: (taken) => this.#takePage(taken),
      takeHead: (saved) => this.#takeHead(saved),
    });
    this.#takePage(page);
    this.stopAt = Math.max(0, this.stops.length - 1);
    if (this.outbox.unsaved.length > 0) this.outbox.retry();
  }

  /** Why the last thing asked (other than storing something) failed. */
  get refused(): CallProblem | null {
    return this.#asking.problem;
  }

  /** Goes on after a look elsewhere, with the walk as the notebook has it now. */
  resume(page: WalkPage): void {
    this.#takePage(page);
    this.#asking.problem = null;
    this.said = null;
    if (this.edited === null) this.editing = null;
    if (this.outbox.unsaved.length > 0) this.outbox.retry();
  }

  /** Stops what runs on its own. */
  close(): void {
    this.outbox.close();
  }

  /** The stops of the walk: the stored ones, then those on their way. */
  get stops(): readonly StopView[] {
    const stored = this.page.stops;
    const last = stored.at(-1)?.number ?? 0;
    const coming = this.outbox.stops.map(({ id, place }, at) => ({
      id,
      number: last + at + 1,
      place: place ?? null,
      heads: [],
    }));
    return [...stored, ...coming];
  }

  /** The stop shown. */
  get stop(): StopView | undefined {
    return this.stops[this.stopAt];
  }

  /** Heads of the stop shown: the stored ones, then those on their way; each with its last change. */
  get heads(): ShownHead[] {
    const stop = this.stop;
    if (!stop) return [];
    const state = this.outbox.trouble === null ? 'saving' : 'unsaved';
    const stored: ShownHead[] = stop.heads.map((head) => ({ ...head, state: 'saved' }));
    const waiting: ShownHead[] = this.outbox.heads
      .filter((head) => head.stop === stop.id)
      .map(({ id, head }, at) => ({
        id,
        number: (stop.heads.at(-1)?.number ?? 0) + at + 1,
        head: head.head,
        flags: head.flags,
        note: head.note ?? null,
        corrected: false,
        state,
      }));
    return [...stored, ...waiting].map((head) => {
      const change = this.outbox.change(head.id);
      if (!change) return head;
      return { ...head, head: change.head, flags: change.flags, note: change.note ?? null, corrected: true, state };
    });
  }

  /** Heads of the whole walk, stored or on their way. */
  get headCount(): number {
    return this.page.stops.reduce((sum, stop) => sum + stop.heads.length, 0) + this.outbox.heads.length;
  }

  /** What "same again" would save: the last head of this stop, else of the walk. */
  get lastHead(): Head | null {
    const here = this.heads.at(-1);
    if (here) return here.head;
    const waiting = this.outbox.heads.at(-1);
    if (waiting) return waiting.head.head;
    const before = this.page.stops.findLast((stop) => stop.heads.length > 0)?.heads.at(-1);
    return before ? (this.outbox.change(before.id)?.head ?? before.head) : null;
  }

  /** The head being changed. */
  get edited(): ShownHead | null {
    return this.heads.find((head) => head.id === this.editing) ?? null;
  }

  /** The head that marks and notes go to: the one being changed, else the last. */
  get marked(): ShownHead | null {
    return this.edited ?? this.heads.at(-1) ?? null;
  }

  /** What undo would take back now. */
  get undoable(): UndoWhat | null {
    const last = this.outbox.last;
    if (!last) return this.page.undo;
    return last.kind === 'change' ? 'correction' : last.kind;
  }

  /** The thumb has set the share; `letGo` when it has left the head. */
  setShare(share: number, letGo: boolean): void {
    this.share = share;
    if (!letGo) return;
    if (this.edited) this.#correct({ reading: this.edited.head.reading, share });
    else if (this.reading !== null) this.#save({ reading: this.reading, share });
  }

  /** The share was stepped as a number; saved only where a head is being changed. */
  stepTo(share: number): void {
    this.share = share;
    if (this.edited && this.edited.head.reading !== 'boot') {
      this.#correct({ reading: this.edited.head.reading, share });
    }
  }

  tapReading(reading: Reading): void {
    const share = reading === 'boot' ? null : this.share;
    const whole = reading === 'boot' || share !== null;
    if (!whole) this.reading = this.reading === reading ? null : reading;
    else if (this.edited) this.#correct({ reading, share });
    else this.#save({ reading, share });
  }

  sameAgain(): void {
    const last = this.lastHead;
    if (last) this.#save(last);
  }

  /** Starts to change a head of this stop. */
  edit(id: string): void {
    const head = this.heads.find((each) => each.id === id);
    if (!head) return;
    this.editing = id;
    this.reading = null;
    this.share = head.head.share;
  }

  stopEditing(): void {
    this.editing = null;
    this.#clear();
  }

  async removeEdited(): Promise<void> {
    const head = this.edited;
    if (!head) return;
    this.stopEditing();
    if (this.outbox.heads.some((each) => each.id === head.id)) this.outbox.drop(head.id);
    else if (await this.#ask({ op: 'remove_head', head: head.id })) this.said = { kind: 'removed' };
  }

  /** Puts marks and a note on a head. */
  setMarks(id: string, flags: Flag[], note: string | null): void {
    const shown = this.heads.find((head) => head.id === id);
    if (shown) this.#change(id, { head: shown.head, flags, note });
  }

  /** Takes back the last thing done; what could not be stored first. */
  async undo(): Promise<void> {
    this.stopEditing();
    if (this.outbox.trouble !== null) {
      const last = this.outbox.last;
      if (last?.kind !== 'head') {
        this.outbox.retry();
        return;
      }
      this.outbox.drop(last.id);
      this.said = { kind: 'undone', what: 'head' };
      return;
    }
    await this.outbox.inTurn(async () => {
      const what = this.page.undo;
      if (what === null) return;
      this.#undoing ??= uuidv7();
      if (await this.#tell({ op: 'undo', id: this.#undoing, walk: this.page.id })) {
        this.#undoing = null;
        this.said = { kind: 'undone', what };
      }
    });
  }

  /**
   * Opens the next stop. It is there at once: a head read right after belongs to it.
   * Its place comes with the first head, once the scout has walked there.
   */
  nextStop(): void {
    if (this.page.finished) return;
    this.stopEditing();
    this.outbox.add({ kind: 'stop', id: uuidv7(), walk: this.page.id });
    this.stopAt = this.stops.length - 1;
  }

  /**
   * A position has come. The stop in hand gets it where it has none yet, or a much
   * better one, as long as the scout is there. No tap waits for this, and trouble
   * with it is no trouble: the next position tries again.
   */
  async notePlace(place: Place, now = Date.now()): Promise<void> {
    const touched = this.#touched;
    if (!touched || now - touched.at > AT_STOP_MS || this.outbox.trouble !== null) return;
    const known = () => this.page.stops.find((stop) => stop.id === touched.stop);
    const stored = known();
    if (!stored || !worthTelling(stored.place, place)) return;
    await this.outbox.inTurn(async () => {
      const stop = known();
      if (!stop || this.page.finished || !worthTelling(stop.place, place)) return;
      await new Action().run(() => this.#take({ op: 'place_stop', stop: stop.id, place }));
    });
  }

  /** Keeps a photo beside the heads, which do not wait for it. */
  async keepPhoto(file: File, of: PhotoOf): Promise<PhotoAdded | null> {
    // What it shows may still be on its way.
    await this.outbox.inTurn(() => Promise.resolve());
    let added: PhotoAdded | null = null;
    const kept = await this.#asking.run(async () => (added = await keepPhoto(file, of)));
    if (kept) await this.#ask({ op: 'walk', walk: this.page.id });
    return added;
  }

  /** Gives a stop the place that a picture named. */
  async takeOffered({ stop, place }: { stop: string; place: Place }): Promise<void> {
    await this.#ask({ op: 'place_stop', stop, place });
  }

  goToStop(at: number): void {
    if (at < 0 || at >= this.stops.length) return;
    this.stopEditing();
    this.stopAt = at;
  }

  /** Marks the walk as finished; false where something stands in the way. */
  finish(): Promise<boolean> {
    return this.outbox.inTurn(async () => {
      this.blocked = this.outbox.unsaved.length > 0;
      return !this.blocked && (await this.#tell({ op: 'finish_walk', walk: this.page.id }));
    });
  }

  /** Leaves no trace of a walk without heads; false where something stands in the way. */
  discard(): Promise<boolean> {
    return this.#asking.run(() => call({ op: 'remove_walk', walk: this.page.id }));
  }

  async reopen(): Promise<void> {
    await this.#ask({ op: 'reopen_walk', walk: this.page.id });
  }

  async correctDate(walked_on: string): Promise<void> {
    await this.#ask({ op: 'correct_walk_date', walk: this.page.id, walked_on });
  }

  #clear(): void {
    this.share = null;
    this.reading = null;
  }

  #save(head: Head): void {
    const stop = this.stop;
    if (!stop || this.page.finished) return;
    this.#asking.problem = null;
    this.#clear();
    this.#touched = { stop: stop.id, at: Date.now() };
    const said: NewHead = { head, flags: [], note: null };
    this.outbox.add({ kind: 'head', id: uuidv7(), walk: this.page.id, stop: stop.id, head: said });
    navigator.vibrate?.(15);
  }

  #correct(head: Head): void {
    const edited = this.edited;
    if (!edited) return;
    this.share = head.share;
    this.reading = null;
    navigator.vibrate?.(15);
    this.#change(edited.id, { head, flags: [...edited.flags], note: edited.note });
  }

  #change(id: string, to: NewHead): void {
    this.#asking.problem = null;
    const waiting = this.outbox.heads.find((head) => head.id === id);
    // Not yet stored and not on its way: it is simply stored as it is now.
    if (waiting && this.outbox.trouble !== null) this.outbox.replace({ ...waiting, head: to });
    else this.outbox.add({ kind: 'change', id: uuidv7(), walk: this.page.id, head: id, to });
  }

  #takeHead({ stop, head, now, undo }: HeadSaved): void {
    const stops = this.page.stops.map((each) => {
      if (each.id !== stop) return each;
      const known = each.heads.some((old) => old.id === head.id);
      const heads = known ? each.heads.map((old) => (old.id === head.id ? head : old)) : [...each.heads, head];
      return { ...each, heads };
    });
    this.page = { ...this.page, stops, now, undo };
    this.said = { kind: 'saved', head: head.head };
  }

  #takePage(page: WalkPage): void {
    this.page = page;
    this.outbox.forget(new Set(page.stops.flatMap((stop) => [stop.id, ...stop.heads.map((head) => head.id)])));
    this.stopAt = Math.min(this.stopAt, Math.max(0, this.stops.length - 1));
  }

  #ask(request: WalkRequest): Promise<boolean> {
    return this.outbox.inTurn(() => this.#tell(request));
  }

  #tell(request: WalkRequest): Promise<boolean> {
    return this.#asking.run(() => this.#take(request));
  }

  async #take(request: WalkRequest): Promise<void> {
    const { op: _, ...page } = await call(request);
    this.#takePage(page);
  }
}
