// What the answer would be with other terms, while a thumb is sliding. One
// question is under way at a time, and after it the newest is asked: the answer
// may be a moment old, but it never queues behind the thumb.

import { call } from '../call';
import type { HarvestTerm, OutletWay, TermsEdit } from '../contract';
import { Query } from '../frame/query.svelte';
import { noTerms } from './terms';

export class WhatIf {
  /** The terms tried, as stored values. */
  tried = $state<Partial<Record<HarvestTerm, number>>>({});
  outlet = $state<OutletWay | null>(null);
  readonly #asked;
  #busy = false;
  #settled = false;
  /** Whether there is something newer to ask. */
  #wanted = false;

  constructor(planting: string) {
    this.#asked = new Query(() =>
      call({ op: 'what_if', planting, as_of: null, edit: this.edit, settled: this.#settled }),
    );
  }

  /** The answer to the newest question answered; none before the first slide. */
  get answer() {
    return this.#asked.answer;
  }

  get problem() {
    return this.#asked.problem;
  }

  /** Whether anything is tried. */
  get on(): boolean {
    return this.outlet !== null || Object.keys(this.tried).length > 0;
  }

  /** What is tried, as the notebook takes it. */
  get edit(): TermsEdit {
    return {
      ...noTerms,
      numbers: (Object.entries(this.tried) as [HarvestTerm, number][]).map(([term, value]) => ({
        term,
        value,
        low: null,
        high: null,
      })),
      outlet: this.outlet,
    };
  }

  /** Tries a number; `settled` once the thumb is up. */
  put(term: HarvestTerm, value: number, settled: boolean): void {
    this.tried[term] = value;
    this.#want(settled);
  }

  /** Tries another outlet. */
  choose(outlet: OutletWay): void {
    this.outlet = outlet;
    this.#want(true);
  }

  /** Lays aside what was tried. */
  clear(): void {
    this.tried = {};
    this.outlet = null;
    this.#wanted = false;
    this.#asked.drop();
  }

  #want(settled: boolean): void {
    this.#settled = settled;
    this.#wanted = true;
    if (!this.#busy) void this.#ask();
  }

  async #ask(): Promise<void> {
    this.#busy = true;
    while (this.#wanted) {
      this.#wanted = false;
      await this.#asked.ask();
    }
    this.#busy = false;
  }
}
