// A walk in progress: what the screen shows, and the grammar of its taps.
//
// A head needs a reading and a share, in either order; whichever comes second
// saves it. Boot needs no share and is saved by its tap alone. "Same again"
// saves the last head once more.

import { v7 as uuidv7 } from 'uuid';

import { call, type CallProblem } from '../call';
import type { Answers, Flag, Head, HeadView, NewHead, Reading, Request, StopView, UndoWhat, WalkPage } from '../contract';
import { asCallProblem } from '../frame/asking.svelte';
import { keepUnsaved, unsavedOf, type Unsaved, type UnsavedHead, type UnsavedStop } from './unsaved';

const RETRY_MS = 4000;

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
  { op: 'walk' | 'undo' | 'remove_head' | 'finish_walk' | 'reopen_walk' }
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
  /** Stops and heads that the notebook has not confirmed, in the order made. */
  unsaved = $state.raw<readonly Unsaved[]>([]);
  /** Why the first of them could not be stored. */
  trouble = $state.raw<CallProblem | null>(null);
  /** Why the last thing asked (other than storing a head) failed. */
  refused = $state.raw<CallProblem | null>(null);
  /** Said by screen readers after a tap. */
  said = $state<{ kind: 'saved'; head: Head } | { kind: 'undone'; what: UndoWhat } | { kind: 'removed' } | null>(null);

  #work: Promise<void> = Promise.resolve();
  #retry: ReturnType<typeof setTimeout> | undefined;
  #store: Storage;
  // Of the undo whose reply may have been lost: sent again, it does nothing twice.
  #undoing: string | null = null;

  constructor(page: WalkPage, store: Storage) {
    this.page = page;
    this.#store = store;
    this.unsaved = unsavedOf(store, page.id);
    this.#takePage(page);
    this.stopAt = Math.max(0, this.stops.length - 1);
    if (this.unsaved.length > 0) this.retry();
  }

  /** Goes on after a look elsewhere, with the walk as the notebook has it now. */
  resume(page: WalkPage): void {
    this.#takePage(page);
    this.refused = null;
    this.said = null;
    if (this.edited === null) this.editing = null;
    if (this.unsaved.length > 0) this.retry();
  }

  /** The stops of the walk: the stored ones, then those on their way. */
  get stops(): readonly StopView[] {
    const stored = this.page.stops;
    const last = stored.at(-1)?.number ?? 0;
    const coming = this.unsaved.filter((each): each is UnsavedStop => each.kind === 'stop');
    return [...stored, ...coming.map(({ id }, at) => ({ id, number: last + at + 1, place: null, heads: [] }))];
  }

  /** The stop shown. */
  get stop(): StopView | undefined {
    return this.stops[this.stopAt];
  }

  get now(): Answers {
    return this.page.now;
  }

  /** Heads of the stop shown: the stored ones, then those on their way. */
  get heads(): ShownHead[] {
    const stop = this.stop;
    if (!stop) return [];
    const stored: ShownHead[] = stop.heads.map((head) => ({ ...head, state: 'saved' }));
    const waiting: ShownHead[] = this.waiting
      .filter((head) => head.stop === stop.id)
      .map((head, at) => ({
        id: head.id,
        number: (stop.heads.at(-1)?.number ?? 0) + at + 1,
        head: head.head.head,
        flags: head.head.flags,
        note: head.head.note ?? null,
        corrected: false,
        state: this.trouble === null ? 'saving' : 'unsaved',
      }));
    return [...stored, ...waiting];
  }

  /** Heads on their way to the notebook. */
  get waiting(): readonly UnsavedHead[] {
    return this.unsaved.filter((each): each is UnsavedHead => each.kind === 'head' && !each.dropped);
  }

  /** Heads of the whole walk, stored or on their way. */
  get headCount(): number {
    return this.page.stops.reduce((sum, stop) => sum + stop.heads.length, 0) + this.waiting.length;
  }

  /** What "same again" would save: the last head of this stop, else of the walk. */
  get lastHead(): Head | null {
    const here = this.heads.at(-1);
    if (here) return here.head;
    const waiting = this.waiting.at(-1);
    if (waiting) return waiting.head.head;
    const before = this.page.stops.findLast((stop) => stop.heads.length > 0);
    return before?.heads.at(-1)?.head ?? null;
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
    return this.waiting.length > 0 ? 'head' : this.page.undo;
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
    if (this.edited) {
      const share = reading === 'boot' ? null : this.share;
      if (reading === 'boot' || share !== null) this.#correct({ reading, share });
      else this.reading = reading;
      return;
    }
    if (reading === 'boot') this.#save({ reading, share: null });
    else if (this.share !== null) this.#save({ reading, share: this.share });
    else this.reading = this.reading === reading ? null : reading;
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
    if (head.state !== 'saved') this.drop(head.id);
    else if (await this.#ask({ op: 'remove_head', head: head.id })) this.said = { kind: 'removed' };
  }

  /** Puts marks and a note on a head. */
  async setMarks(id: string, flags: Flag[], note: string | null): Promise<void> {
    const waiting = this.waiting.find((head) => head.id === id);
    if (waiting) {
      const head: NewHead = { ...waiting.head, flags, note };
      this.#replaceUnsaved({ ...waiting, head });
      return;
    }
    const stored = this.#find(id);
    if (stored) await this.#send(id, { head: stored.head, flags, note });
  }

  async undo(): Promise<void> {
    this.stopEditing();
    if (this.trouble !== null) {
      const last = this.unsaved.findLast((each) => each.kind === 'stop' || !each.dropped);
      if (last?.kind === 'head') {
        this.drop(last.id);
        this.said = { kind: 'undone', what: 'head' };
      } else {
        this.retry();
      }
      return;
    }
    await this.#work;
    const what = this.page.undo;
    if (what === null) return;
    this.#undoing ??= uuidv7();
    if (await this.#ask({ op: 'undo', id: this.#undoing, walk: this.page.id })) {
      this.#undoing = null;
      this.said = { kind: 'undone', what };
    }
  }

  /** Opens the next stop. It is there at once: a head read right after belongs to it. */
  nextStop(): void {
    if (this.page.finished) return;
    this.stopEditing();
    this.#queue({ kind: 'stop', id: uuidv7(), walk: this.page.id });
    this.stopAt = this.stops.length - 1;
  }

  goToStop(at: number): void {
    if (at < 0 || at >= this.stops.length) return;
    this.stopEditing();
    this.stopAt = at;
  }

  /** Marks the walk as finished; false where something stands in the way. */
  async finish(): Promise<boolean> {
    await this.#work;
    if (this.unsaved.length > 0) return false;
    return this.#ask({ op: 'finish_walk', walk: this.page.id });
  }

  async reopen(): Promise<void> {
    await this.#ask({ op: 'reopen_walk', walk: this.page.id });
  }

  /** Sends the unsaved heads once more, in order. */
  retry(): void {
    clearTimeout(this.#retry);
    this.trouble = null;
    this.#work = this.#work.then(() => this.#sendUnsaved());
  }

  /** Gives up an unsaved head. */
  drop(id: string): void {
    const head = this.waiting.find((each) => each.id === id);
    if (head) this.#replaceUnsaved({ ...head, dropped: true });
    this.retry();
  }

  /** Stops what runs on its own; unsaved heads stay kept for the next visit. */
  close(): void {
    clearTimeout(this.#retry);
  }

  #clear(): void {
    this.share = null;
    this.reading = null;
  }

  #find(id: string): HeadView | undefined {
    return this.page.stops.flatMap((stop) => stop.heads).find((head) => head.id === id);
  }

  #setUnsaved(unsaved: readonly Unsaved[]): void {
    this.unsaved = unsaved;
    keepUnsaved(this.#store, this.page.id, unsaved);
  }

  #replaceUnsaved(head: UnsavedHead): void {
    this.#setUnsaved(this.unsaved.map((each) => (each.id === head.id ? head : each)));
  }

  #queue(unsaved: Unsaved): void {
    this.#setUnsaved([...this.unsaved, unsaved]);
    if (this.trouble === null) this.#work = this.#work.then(() => this.#sendUnsaved());
    else this.retry();
  }

  #save(head: Head): void {
    const stop = this.stop;
    if (!stop || this.page.finished) return;
    this.refused = null;
    this.#clear();
    const said: NewHead = { head, flags: [], note: null };
    this.#queue({ kind: 'head', id: uuidv7(), walk: this.page.id, stop: stop.id, head: said });
    navigator.vibrate?.(15);
  }

  /** One at a time, so that the notebook's order is the scout's. */
  async #sendUnsaved(): Promise<void> {
    while (this.unsaved.length > 0) {
      const sent = this.unsaved[0]!;
      try {
        if (sent.kind === 'stop') await this.#sendStop(sent);
        else if (sent.dropped) await this.#withdraw(sent.id);
        else await this.#sendHead(sent);
      } catch (error) {
        this.trouble = asCallProblem(error);
        if (this.trouble.code === 'unavailable') this.#retry = setTimeout(() => this.retry(), RETRY_MS);
        return;
      }
    }
  }

  async #sendStop(stop: UnsavedStop): Promise<void> {
    const { op: _, ...page } = await call({ op: 'add_stop', id: stop.id, walk: stop.walk, place: null });
    this.#setUnsaved(this.unsaved.filter((each) => each.id !== stop.id));
    this.#takePage(page);
  }

  async #sendHead(sent: UnsavedHead): Promise<void> {
    const saved = await call({ op: 'add_head', id: sent.id, stop: sent.stop, head: sent.head });
    const kept = this.waiting.find((head) => head.id === sent.id);
    this.#takeHead(saved.stop, saved.head, saved.now, saved.undo);
    if (kept) this.#setUnsaved(this.unsaved.filter((each) => each.id !== sent.id));
    this.said = { kind: 'saved', head: saved.head.head };
    // Marked or changed while it was on its way.
    if (kept && kept.head !== sent.head) await this.#send(sent.id, kept.head);
  }

  async #withdraw(head: string): Promise<void> {
    try {
      const { op: _, ...page } = await call({ op: 'remove_head', head });
      this.#takePage(page);
    } catch (error) {
      // Never stored, as was thought.
      if (asCallProblem(error).code !== 'not_found') throw error;
    }
    this.#setUnsaved(this.unsaved.filter((each) => each.id !== head));
  }

  #correct(head: Head): void {
    const edited = this.edited;
    if (!edited) return;
    this.share = head.share;
    this.reading = null;
    const to: NewHead = { head, flags: [...edited.flags], note: edited.note };
    if (edited.state !== 'saved') {
      const waiting = this.waiting.find((each) => each.id === edited.id);
      if (waiting) this.#replaceUnsaved({ ...waiting, head: to });
      return;
    }
    navigator.vibrate?.(15);
    this.#work = this.#work.then(() => this.#send(edited.id, to));
  }

  async #send(head: string, to: NewHead): Promise<void> {
    try {
      const saved = await call({ op: 'correct_head', head, to });
      this.#takeHead(saved.stop, saved.head, saved.now, saved.undo, head);
      if (this.editing === head) this.editing = saved.head.id;
      this.said = { kind: 'saved', head: saved.head.head };
      this.refused = null;
    } catch (error) {
      this.refused = asCallProblem(error);
    }
  }

  /** Takes a stored head into the page, in the place of the one it replaces. */
  #takeHead(stop: string, head: HeadView, now: Answers, undo: UndoWhat | null, replaces: string = head.id): void {
    const stops = this.page.stops.map((each) => {
      if (each.id !== stop) return each;
      const known = each.heads.some((old) => old.id === replaces);
      const heads = known ? each.heads.map((old) => (old.id === replaces ? head : old)) : [...each.heads, head];
      return { ...each, heads };
    });
    this.page = { ...this.page, stops, now, undo };
  }

  /** Takes the walk as the notebook has it; what it holds is no longer on its way. */
  #takePage(page: WalkPage): void {
    const stored = new Set(page.stops.flatMap((stop) => [stop.id, ...stop.heads.map((head) => head.id)]));
    this.page = page;
    this.#setUnsaved(this.unsaved.filter((each) => (each.kind === 'head' && each.dropped) || !stored.has(each.id)));
    this.stopAt = Math.min(this.stopAt, Math.max(0, this.stops.length - 1));
  }

  async #ask(request: WalkRequest): Promise<boolean> {
    try {
      const { op: _, ...page } = await call(request);
      this.#takePage(page);
      this.refused = null;
      return true;
    } catch (error) {
      this.refused = asCallProblem(error);
      return false;
    }
  }
}
