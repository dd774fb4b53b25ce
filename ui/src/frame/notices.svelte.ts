// One line at the foot of the screen that says what was just done, with the
// way to take it back. It is read out, and never waits for an answer.

import { say } from '../messages';
import { Action } from './action.svelte';

export interface Notice {
  text: string;
  /** Takes it back. It may outlive the screen that it was done on. */
  undo?: () => Promise<unknown>;
}

const SHOWN_FOR_MS = 20_000;

class Notices {
  current = $state<Notice | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;

  show(notice: Notice): void {
    this.current = notice;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.clear(), SHOWN_FOR_MS);
  }

  /** Takes back what is shown; trouble with that is the next notice. */
  async undo(): Promise<void> {
    const undo = this.current?.undo;
    this.clear();
    const action = new Action();
    if (undo) await action.run(undo);
    if (action.problem) this.show({ text: say.common.problem[action.problem.code] });
  }

  clear(): void {
    clearTimeout(this.#timer);
    this.current = null;
  }
}

export const notices = new Notices();
