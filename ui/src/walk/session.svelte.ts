// A walk in progress: what the screen shows, and the grammar of its taps.
//
// A head needs a reading and a share, in either order; whichever comes second
// saves it. Boot needs no share and is saved by its tap alone. "Same again"
// saves the last head once more.

import { v7 as uuidv7 } from 'uuid';

import { call, type CallProblem } from '../call';
import type { Answers, Flag, Head, HeadView, NewHead, Reading, Request, StopView, UndoWhat, WalkPage } from '../contract';
import { asCallProblem } from '../frame/asking.svelte';
import { keepUnsaved, unsavedOf, type UnsavedHead } from './unsaved';

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
  { op: 'walk' | 'add_stop' | 'remove_head' | 'undo' | 'finish_walk' | 'reopen_walk' }
>;

export class WalkSession {
  page = $state.raw<WalkPage>()!;
  /** Place of the stop shown in the walk's stops. */
  stopAt = $state(0);
  /** Share set for the next head, or of the head being changed. */
  share = $state<number | null>(null);
  /** Reading tapped before the share. */
  reading = $state<Reading | null>(null);
  /** Head being changed. */
  editing = $state<string | null>(null);
  unsaved = $state.raw<readonly UnsavedHead[]>([]);
  /** Why the first unsaved head could not be stored. */
  trouble = $state.raw<CallProblem | null>(null);
  /** Why the last thing asked (other than storing a head) failed. */
  refused = $state.raw<CallProblem | null>(null);
  /** Said by screen readers after a tap. */
  said = $state<{ kind: 'saved'; head: Head } | { kind: 'undone'; what: UndoWhat } | { kind: 'removed' } | null>(null);

  #work: Promise<void> = Promise.resolve();
  #retry: ReturnType<typeof setTimeout> | undefined;
  #store: Storage;
  // Ids of requests whose reply may have been lost: sent again, they do nothing twice.
  #undoing: string | null = null;
  #adding: string | null = null;

  constructor(page: WalkPage, store: Storage) {
    this.page = page;
    this.#store = store;
    this.stopAt = Math.max(0, page.stops.length - 1);
    this.unsaved = unsavedOf(store, page.id);
    this.#takePage(page);
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

  get stop(): StopView | undefined {
    return this.page.stops[this.stopAt];
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
    return this.unsaved.filter((head) => !head.dropped);
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
      this.#setUnsaved(this.unsaved.map((each) => (each.id === id ? { ...each, head } : each)));
      return;
    }
    const stored = this.#find(id);
    if (stored) await this.#send(id, { head: stored.head, flags, note });
  }

  async undo(): Promise<void> {
    this.stopEditing();
    const waiting = this.waiting.at(-1);
    if (this.trouble !== null && waiting) {
      this.drop(waiting.id);
      this.said = { kind: 'undone', what: 'head' };
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

  async nextStop(): Promise<void> {
    this.stopEditing();
    await this.#work;
    this.#adding ??= uuidv7();
    if (await this.#ask({ op: 'add_stop', id: this.#adding, walk: this.page.id, place: null })) {
      this.#adding = null;
      this.stopAt = this.page.stops.length - 1;
    }
  }

  goToStop(at: number): void {
    if (at < 0 || at >= this.page.stops.length) return;
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
    this.#setUnsaved(this.unsaved.map((head) => (head.id === id ? { ...head, dropped: true } : head)));
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

  #setUnsaved(heads: readonly UnsavedHead[]): void {
    this.unsaved = heads;
    keepUnsaved(this.#store, this.page.id, heads);
  }

  #save(head: Head): void {
    const stop = this.stop;
    if (!stop || this.page.finished) return;
    this.refused = null;
    this.#clear();
    this.#setUnsaved([
      ...this.unsaved,
      { id: uuidv7(), walk: this.page.id, stop: stop.id, head: { head, flags: [], note: null } },
    ]);
    navigator.vibrate?.(15);
    if (this.trouble === null) this.#work = this.#work.then(() => this.#sendUnsaved());
    else this.retry();
  }

  /** One at a time, so that the notebook's order is the scout's. */
  async #sendUnsaved(): Promise<void> {
    while (this.unsaved.length > 0) {
      const sent = this.unsaved[0]!;
      try {
        if (sent.dropped) {
          await this.#withdraw(sent.id);
          continue;
        }
        const saved = await call({ op: 'add_head', id: sent.id, stop: sent.stop, head: sent.head });
        this.#takeHead(saved.stop, saved.head, saved.now, saved.undo);
        const kept = this.unsaved.find((head) => head.id === sent.id);
        this.#setUnsaved(this.unsaved.filter((head) => head.id !== sent.id));
        this.said = { kind: 'saved', head: saved.head.head };
        // Marked while it was on its way.
        if (kept && kept.head !== sent.head) await this.#send(sent.id, kept.head);
      } catch (error) {
        this.trouble = asCallProblem(error);
        if (this.trouble.code === 'unavailable') this.#retry = setTimeout(() => this.retry(), RETRY_MS);
        return;
      }
    }
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
      this.#setUnsaved(this.unsaved.map((each) => (each.id === edited.id ? { ...each, head: to } : each)));
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
    const stored = new Set(page.stops.flatMap((stop) => stop.heads.map((head) => head.id)));
    this.page = page;
    this.stopAt = Math.min(this.stopAt, Math.max(0, page.stops.length - 1));
    this.#setUnsaved(this.unsaved.filter((head) => head.dropped || !stored.has(head.id)));
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
