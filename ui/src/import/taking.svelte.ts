// The steps of bringing a file in, the same for every kind of file: choose, read,
// look, store. A file that was given up while it was read does not come back.

import type { CallProblem } from '../call';
import { asCallProblem } from '../frame/asking.svelte';

export type Step<Looked, Stored> =
  | { at: 'choose' }
  | { at: 'reading'; name: string }
  | { at: 'unusable'; line: string }
  | { at: 'looked'; name: string; looked: Looked }
  | { at: 'storing' }
  | { at: 'stored'; stored: Stored };

/** What a look may throw to say in one line why a file cannot be used. */
export class Unusable extends Error {}

export interface Taking<Looked, Stored> {
  /** Reads the chosen files without storing anything. */
  look: (files: readonly File[]) => Promise<Looked>;
  /** Stores what was looked at, all or nothing. */
  store: (looked: Looked) => Promise<Stored>;
}

export class FileTaking<Looked, Stored> {
  step = $state.raw<Step<Looked, Stored>>({ at: 'choose' });
  problem = $state.raw<CallProblem | null>(null);
  #reading = 0;

  constructor(private readonly taking: Taking<Looked, Stored>) {}

  async take(files: readonly File[]): Promise<void> {
    const first = files[0];
    if (!first) return;
    this.#reading += 1;
    const mine = this.#reading;
    this.problem = null;
    this.step = { at: 'reading', name: first.name };
    const next = await this.#look(first.name, files);
    if (mine === this.#reading) this.step = next;
  }

  stop(): void {
    this.#reading += 1;
    this.step = { at: 'choose' };
  }

  async store(): Promise<void> {
    const looked = this.step;
    if (looked.at !== 'looked') return;
    this.step = { at: 'storing' };
    try {
      this.step = { at: 'stored', stored: await this.taking.store(looked.looked) };
      this.problem = null;
    } catch (error) {
      this.problem = asCallProblem(error);
      this.step = looked;
    }
  }

  /** Looks again, or shows what was changed by hand. */
  show(looked: Looked): void {
    if (this.step.at === 'looked') this.step = { ...this.step, looked };
  }

  async #look(name: string, files: readonly File[]): Promise<Step<Looked, Stored>> {
    try {
      return { at: 'looked', name, looked: await this.taking.look(files) };
    } catch (error) {
      if (error instanceof Unusable) return { at: 'unusable', line: error.message };
      this.problem = asCallProblem(error);
      return { at: 'choose' };
    }
  }
}
