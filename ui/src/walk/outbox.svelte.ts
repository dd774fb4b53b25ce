// Sends a walk's stops, heads and changes to the notebook: one after the other,
// so that the notebook's order is the scout's, and again until it has them.

import { call, type CallProblem, type Trouble } from '../call';
import type { HeadSaved, NewHead, WalkPage } from '../contract';
import { Action } from '../frame/action.svelte';
import {
  keepUnsaved,
  unsavedOf,
  type Unsaved,
  type UnsavedChange,
  type UnsavedHead,
  type UnsavedStop,
} from './unsaved';

const RETRY_MS = 4000;
// Trouble that may be over when the same is sent again: room made, a card unlocked.
const PASSING: ReadonlySet<Trouble> = new Set<Trouble>(['unavailable', 'disk_full', 'read_only']);

/** Who is told what the notebook has stored. */
export interface Receiver {
  takePage(page: WalkPage): void;
  takeHead(saved: HeadSaved): void;
}

export class Outbox {
  /** What the notebook has not confirmed, in the order made. */
  unsaved = $state.raw<readonly Unsaved[]>([]);
  readonly #sending = new Action();

  #work: Promise<void> = Promise.resolve();
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly store: Storage,
    private readonly walk: string,
    private readonly receiver: Receiver,
  ) {
    this.unsaved = unsavedOf(store, walk);
  }

  /** Why the first of it could not be stored. */
  get trouble(): CallProblem | null {
    return this.#sending.problem;
  }

  /** Heads on their way. */
  get heads(): readonly UnsavedHead[] {
    return this.unsaved.filter((each): each is UnsavedHead => each.kind === 'head' && !each.dropped);
  }

  /** Stops on their way. */
  get stops(): readonly UnsavedStop[] {
    return this.unsaved.filter((each): each is UnsavedStop => each.kind === 'stop');
  }

  /** The last thing made that is on its way. */
  get last(): Unsaved | undefined {
    return this.unsaved.findLast((each) => each.kind !== 'head' || !each.dropped);
  }

  /** What a head is to say by the last change on its way. */
  change(head: string): NewHead | undefined {
    return this.unsaved.findLast((each): each is UnsavedChange => each.kind === 'change' && each.head === head)?.to;
  }

  /** Adds something, and sends it as soon as its turn comes. */
  add(unsaved: Unsaved): void {
    this.#set([...this.unsaved, unsaved]);
    if (this.trouble === null) void this.inTurn(() => this.#send());
    else this.retry();
  }

  /** Puts a head in the place of what it was. */
  replace(head: UnsavedHead): void {
    this.#set(this.unsaved.map((each) => (each.id === head.id ? head : each)));
  }

  /** Gives up a head. It may have been stored all the same, so the notebook is told. */
  drop(id: string): void {
    const head = this.heads.find((each) => each.id === id);
    if (head) this.replace({ ...head, dropped: true });
    this.retry();
  }

  /** What the notebook has is no longer on its way. */
  forget(stored: ReadonlySet<string>): void {
    this.#set(this.unsaved.filter((each) => (each.kind === 'head' && each.dropped) || !stored.has(each.id)));
  }

  /** Sends what is unsaved once more, in order. */
  retry(): void {
    clearTimeout(this.#timer);
    this.#sending.problem = null;
    void this.inTurn(() => this.#send());
  }

  /** Does some other work with the notebook when what was asked before is done. */
  inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#work.then(work);
    this.#work = done.then(
      () => undefined,
      () => undefined,
    );
    return done;
  }

  /** Stops what runs on its own; what is unsaved stays kept for the next visit. */
  close(): void {
    clearTimeout(this.#timer);
  }

  #set(unsaved: readonly Unsaved[]): void {
    this.unsaved = unsaved;
    keepUnsaved(this.store, this.walk, unsaved);
  }

  async #send(): Promise<void> {
    while (this.unsaved.length > 0) {
      if (await this.#sending.run(() => this.#sendOne(this.unsaved[0]!))) continue;
      if (this.trouble && PASSING.has(this.trouble.code)) this.#timer = setTimeout(() => this.retry(), RETRY_MS);
      return;
    }
  }

  async #sendOne(sent: Unsaved): Promise<void> {
    if (sent.kind === 'stop') {
      const { op: _, ...page } = await call({
        op: 'add_stop',
        id: sent.id,
        walk: sent.walk,
        place: sent.place ?? null,
      });
      this.receiver.takePage(page);
    } else if (sent.kind === 'change') {
      this.receiver.takeHead(await call({ op: 'correct_head', head: sent.head, to: sent.to }));
    } else if (sent.dropped) {
      await this.#withdraw(sent.id);
    } else {
      this.receiver.takeHead(await call({ op: 'add_head', id: sent.id, stop: sent.stop, head: sent.head }));
      // One that was dropped while it was on its way stays, to be withdrawn next.
      this.forget(new Set([sent.id]));
      return;
    }
    this.#set(this.unsaved.filter((each) => each.id !== sent.id));
  }

  async #withdraw(head: string): Promise<void> {
    const removing = new Action();
    await removing.run(async () => {
      const { op: _, ...page } = await call({ op: 'remove_head', head });
      this.receiver.takePage(page);
    });
    // One that is not found was never stored, as was thought.
    if (removing.problem && removing.problem.code !== 'not_found') throw removing.problem;
  }
}
