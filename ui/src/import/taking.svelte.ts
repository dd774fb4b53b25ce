// The steps of bringing a file in, the same for every kind of file: choose, read,
// look, store. A file that was given up while it was read does not come back.

import { v7 as uuidv7 } from 'uuid';

import { Action } from '../frame/action.svelte';

export type Step<Looked, Stored> =
  | { at: 'choose' }
  | { at: 'reading'; name: string; job: string }
  | { at: 'unusable'; line: string }
  | { at: 'looked'; name: string; looked: Looked }
  | { at: 'storing'; job: string }
  | { at: 'stopped' }
  | { at: 'stored'; stored: Stored };

/** What a look may throw to say in one line why a file cannot be used. */
export class Unusable extends Error {}

export interface Taking<Looked, Stored> {
  /** Reads the chosen files without storing anything; `job` names the work. */
  look: (files: readonly File[], job: string) => Promise<Looked>;
  /** Stores what was looked at, all or nothing. */
  store: (looked: Looked, job: string) => Promise<Stored>;
  /** Whether the notebook tells how far a work is, and can be told to stop it. */
  told?: boolean;
}

export class FileTaking<Looked, Stored> {
  step = $state.raw<Step<Looked, Stored>>({ at: 'choose' });
  /** What is done with the file now, and why it could not be. */
  action = $state.raw(new Action());
  #reading = 0;

  constructor(private readonly taking: Taking<Looked, Stored>) {}

  /** Whether a bar can show how far it is. */
  get told(): boolean {
    return this.taking.told === true;
  }

  async take(files: readonly File[]): Promise<void> {
    const first = files[0];
    if (!first) return;
    this.#reading += 1;
    const mine = this.#reading;
    const job = uuidv7();
    this.step = { at: 'reading', name: first.name, job };
    this.action = new Action();
    let next: Step<Looked, Stored> = { at: 'choose' };
    await this.action.run(async () => (next = await this.#look(first.name, files, job)));
    if (mine === this.#reading) this.step = next;
  }

  stop(): void {
    this.#reading += 1;
    this.action = new Action();
    this.step = { at: 'stopped' };
  }

  async store(): Promise<void> {
    const looked = this.step;
    if (looked.at !== 'looked') return;
    const job = uuidv7();
    this.step = { at: 'storing', job };
    const done = await this.action.run(async () => {
      this.step = { at: 'stored', stored: await this.taking.store(looked.looked, job) };
    });
    if (done) return;
    const stopped = this.action.problem?.code === 'stopped';
    this.step = stopped ? { at: 'stopped' } : looked;
    if (stopped) this.action.problem = null;
  }

  /** Looks again, or shows what was changed by hand. */
  show(looked: Looked): void {
    if (this.step.at === 'looked') this.step = { ...this.step, looked };
  }

  async #look(name: string, files: readonly File[], job: string): Promise<Step<Looked, Stored>> {
    try {
      return { at: 'looked', name, looked: await this.taking.look(files, job) };
    } catch (error) {
      if (error instanceof Unusable) return { at: 'unusable', line: error.message };
      throw error;
    }
  }
}
