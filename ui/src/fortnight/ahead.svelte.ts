// The windows of the days ahead, over all plantings. A forecast of every planting
// takes a while, so it is made once and kept until something it rests on changed.

import { onChanged } from '../call';
import { Asking } from '../frame/asking.svelte';

const RESTS_ON = ['planting', 'weather', 'settings'];

class Ahead {
  readonly asking = new Asking<{ op: 'fortnight'; as_of: null }>();
  #stale = true;
  #underway = false;

  constructor() {
    onChanged((changed) => {
      if (changed.some((each) => RESTS_ON.includes(each.kind))) this.#stale = true;
    });
  }

  /** Sees to it that the answer is that of `today`, where known, and of what the notebook holds now. */
  async want(today?: string): Promise<void> {
    const answer = this.asking.answer;
    if (today !== undefined && answer !== null && answer.from !== today) this.#stale = true;
    if (this.#underway) return;
    this.#underway = true;
    while (this.#stale) {
      this.#stale = false;
      await this.asking.ask({ op: 'fortnight', as_of: null });
      if (this.asking.problem) {
        this.#stale = true;
        break;
      }
    }
    this.#underway = false;
  }
}

/** One for all screens. */
export const ahead = new Ahead();
