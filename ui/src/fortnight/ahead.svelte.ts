// The windows of the days ahead, over all plantings. A forecast of every planting
// takes a while, so it is made once and kept until something it rests on changed.

import { call, subscribe, type Topic } from '../call';
import { Query } from '../frame/query.svelte';

/** What the windows rest on. */
export const RESTS_ON: readonly Topic[] = ['planting', 'weather', 'settings'];

class Ahead {
  readonly query = new Query(() => call({ op: 'fortnight', as_of: null }));
  #stale = true;
  #underway = false;

  constructor() {
    subscribe(RESTS_ON, () => (this.#stale = true));
  }

  /** Sees to it that the answer is that of `today`, where known, and of what the notebook holds now. */
  async want(today?: string): Promise<void> {
    const { answer } = this.query;
    if (today !== undefined && answer !== null && answer.from !== today) this.#stale = true;
    if (this.#underway) return;
    this.#underway = true;
    while (this.#stale) {
      this.#stale = false;
      await this.query.ask();
      if (this.query.problem) {
        this.#stale = true;
        break;
      }
    }
    this.#underway = false;
  }
}

/** One for all screens. */
export const ahead = new Ahead();
