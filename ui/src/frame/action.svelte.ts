// Something done with the notebook as a screen shows it: under way, done, or failed.

import { asCallProblem, type CallProblem } from '../call';

export class Action {
  problem = $state.raw<CallProblem | null>(null);
  #underway = $state(0);

  /** True while it is being done. */
  get busy(): boolean {
    return this.#underway > 0;
  }

  /** Does it; true once it is done. What goes wrong is kept to be shown, and is not thrown. */
  async run(work: () => Promise<unknown>): Promise<boolean> {
    this.#underway += 1;
    this.problem = null;
    try {
      await work();
      return true;
    } catch (error) {
      this.problem = asCallProblem(error);
      return false;
    } finally {
      this.#underway -= 1;
    }
  }
}
