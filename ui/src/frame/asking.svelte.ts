// A question to the notebook as a screen shows it: waiting, waiting for long
// enough to say so, answered, or failed.

import { call, CallProblem, type AnswerTo, type Asked } from '../call';

const SLOW_AFTER_MS = 300;

export class Asking<R extends Asked> {
  answer = $state.raw<AnswerTo<R> | null>(null);
  problem = $state.raw<CallProblem | null>(null);
  /** True once it has taken long enough that the screen should say so. */
  slow = $state(false);
  #latest = 0;

  /** May start from the answer of an earlier visit. */
  constructor(before: AnswerTo<R> | null = null) {
    this.answer = before;
  }

  /** Asks; an earlier answer stays on the screen until the new one is there. */
  async ask(request: R): Promise<void> {
    this.#latest += 1;
    const mine = this.#latest;
    const timer = setTimeout(() => (this.slow = true), SLOW_AFTER_MS);
    try {
      const answer = await call(request);
      if (mine !== this.#latest) return;
      this.answer = answer;
      this.problem = null;
    } catch (error) {
      if (mine === this.#latest) this.problem = asCallProblem(error);
    } finally {
      clearTimeout(timer);
      if (mine === this.#latest) this.slow = false;
    }
  }
}

/** Any failure as a problem with a code that the screens have words for. */
export function asCallProblem(error: unknown): CallProblem {
  if (error instanceof CallProblem) return error;
  return new CallProblem({ code: 'internal', message: error instanceof Error ? error.message : String(error) });
}
