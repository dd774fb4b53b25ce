// What the answer would be with other terms, while a thumb is sliding. One
// question is under way at a time, and after it the newest is asked: the answer
// may be a moment old, but it never queues behind the thumb.

import { call } from '../call';
import type { HarvestTerm, OutletWay, TermsEdit, WhatIfAnswer } from '../contract';
import type { CallProblem } from '../call';
import { asCallProblem } from '../frame/asking.svelte';

export class WhatIf {
  /** The answer to the newest question answered; none before the first slide. */
  answer = $state.raw<WhatIfAnswer | null>(null);
  problem = $state.raw<CallProblem | null>(null);
  /** The terms tried, as stored values. */
  tried = $state<Partial<Record<HarvestTerm, number>>>({});
  outlet = $state<OutletWay | null>(null);
  readonly #planting: string;
  #busy = false;
  #wanted: { settled: boolean } | null = null;
  /** Raised when all is laid aside: what comes later is of no use. */
  #turn = 0;

  constructor(planting: string) {
    this.#planting = planting;
  }

  /** Whether anything is tried. */
  get on(): boolean {
    return this.outlet !== null || Object.keys(this.tried).length > 0;
  }

  /** What is tried, as the notebook takes it. */
  get edit(): TermsEdit {
    return {
      numbers: (Object.entries(this.tried) as [HarvestTerm, number][]).map(([term, value]) => ({
        term,
        value,
        low: null,
        high: null,
      })),
      outlet: this.outlet,
      fuel: null,
      discounts: [],
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
    this.answer = null;
    this.problem = null;
    this.#wanted = null;
    this.#turn += 1;
  }

  #want(settled: boolean): void {
    this.#wanted = { settled };
    if (!this.#busy) void this.#ask();
  }

  async #ask(): Promise<void> {
    this.#busy = true;
    while (this.#wanted !== null) {
      const { settled } = this.#wanted;
      const turn = this.#turn;
      this.#wanted = null;
      try {
        const { op: _, ...answer } = await call({
          op: 'what_if',
          planting: this.#planting,
          as_of: null,
          edit: this.edit,
          settled,
        });
        if (turn === this.#turn) {
          this.answer = answer;
          this.problem = null;
        }
      } catch (error) {
        if (turn === this.#turn) this.problem = asCallProblem(error);
      }
    }
    this.#busy = false;
  }
}
