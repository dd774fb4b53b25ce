// A question to the notebook as a screen shows it: waiting, waiting for long
// enough to say so, answered, or failed.

import { onMount } from 'svelte';

import { asCallProblem, subscribe, type CallProblem, type Topics } from '../call';

const SLOW_AFTER_MS = 300;

export class Query<Answer> {
  /** The newest answer; it stays until the next one is there. */
  answer = $state.raw<Answer | null>(null);
  problem = $state.raw<CallProblem | null>(null);
  /** True until the newest question is answered. */
  busy = $state(false);
  /** True once it has taken long enough that the screen should say so. */
  slow = $state(false);
  readonly #question: () => Promise<Answer>;
  #latest = 0;

  /** May start from the answer of an earlier visit. */
  constructor(question: () => Promise<Answer>, before: Answer | null = null) {
    this.#question = question;
    this.answer = before;
  }

  /** Asks; an answer that comes after a later question is dropped. Never throws. */
  readonly ask = async (): Promise<void> => {
    this.#latest += 1;
    const mine = this.#latest;
    const timer = setTimeout(() => (this.slow = mine === this.#latest), SLOW_AFTER_MS);
    this.busy = true;
    try {
      const answer = await this.#question();
      if (mine !== this.#latest) return;
      this.answer = answer;
      this.problem = null;
    } catch (error) {
      if (mine === this.#latest) this.problem = asCallProblem(error);
    } finally {
      clearTimeout(timer);
      if (mine === this.#latest) this.busy = this.slow = false;
    }
  };

  /** Forgets the answer, and the one on its way. */
  readonly drop = (): void => {
    this.#latest += 1;
    this.answer = this.problem = null;
    this.busy = this.slow = false;
  };
}

/**
 * A question of a component: asked when it is mounted, and again whenever one of the
 * topics changes, for as long as it is there.
 */
export function query<Answer>(
  topics: Topics | (() => Topics),
  question: () => Promise<Answer>,
  before: Answer | null = null,
): Query<Answer> {
  const asked = new Query(question, before);
  onMount(() => {
    void asked.ask();
    return subscribe(typeof topics === 'function' ? topics() : topics, asked.ask);
  });
  return asked;
}
