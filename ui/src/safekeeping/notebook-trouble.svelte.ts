// Trouble that no screen can go on with: the notebook itself does not open, or
// turned out to be damaged. The whole app then says what to do.

import { call, onTrouble, type CallProblem, type Trouble } from '../call';
import type { RestoreReport, SalvageReport } from '../contract';
import { Action } from '../frame/action.svelte';

/** Kinds of it, each with words of its own. */
export const STARTUP = ['damaged', 'incomplete', 'from_newer_app', 'read_only', 'disk_full', 'unavailable'] as const;
export type StartupTrouble = (typeof STARTUP)[number];

/** Those that may turn up in use too, and end it. */
const GRAVE: ReadonlySet<Trouble> = new Set<Trouble>(['damaged', 'incomplete', 'from_newer_app']);

const isStartup = (code: Trouble): code is StartupTrouble => (STARTUP as readonly string[]).includes(code);

class NotebookTrouble {
  /** Why the notebook is not open. */
  code = $state<StartupTrouble | null>(null);
  /** The notebook's own words. */
  message = $state('');
  /** What was saved of a damaged file, until it has been read. */
  saved = $state.raw<SalvageReport | null>(null);
  /** What took the place of a damaged file, until it has been read. */
  replaced = $state.raw<RestoreReport | null>(null);
  working = $state<'opening' | 'salvaging' | null>(null);
  readonly #trying = new Action();

  /** Why the last try did not help. */
  get refused(): CallProblem | null {
    return this.#trying.problem;
  }

  /** Hears of damage wherever it is met; returns how to stop. */
  listen(): () => void {
    return onTrouble((problem) => {
      if (GRAVE.has(problem.code)) this.take(problem);
    });
  }

  /** The notebook could not be opened at the start. */
  take(problem: CallProblem): void {
    if (!isStartup(problem.code)) return;
    this.code = problem.code;
    this.message = problem.message;
  }

  /** Room was made, or rights mended. */
  async openAgain(): Promise<boolean> {
    return this.#try('opening', async () => {
      await call({ op: 'open_again' });
    });
  }

  /** Sets the damaged file aside and saves what can be read. */
  async salvage(): Promise<boolean> {
    return this.#try('salvaging', async () => {
      const { op: _, ...report } = await call({ op: 'salvage' });
      this.saved = report;
    });
  }

  /** A backup took the damaged file's place. */
  restored(report: RestoreReport): void {
    this.replaced = report;
    this.code = null;
  }

  async #try(work: 'opening' | 'salvaging', attempt: () => Promise<void>): Promise<boolean> {
    this.working = work;
    const done = await this.#trying.run(attempt);
    this.working = null;
    if (done) this.code = null;
    else if (work === 'opening' && this.refused) this.take(this.refused);
    return done;
  }
}

export const notebookTrouble = new NotebookTrouble();
