// Where this device stands with its crew, as every screen shows it. Asked often
// while an exchange runs, now and then while somebody looks, never while nobody does.

import { call, onChanged, type AnswerTo, type CallProblem } from '../call';
import { asCallProblem } from '../frame/asking.svelte';

type State = AnswerTo<{ crew: 'state'; since: number | null }>;

const RUNNING_MS = 700;
const LOOKING_MS = 10_000;
/** A row of taps is one change. */
const AFTER_CHANGE_MS = 1_500;

class Exchange {
  /** None until the notebook has said. */
  state = $state.raw<State | null>(null);
  problem = $state.raw<CallProblem | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asking = false;

  /** Begins to watch; called once. */
  start(): void {
    // The platform's word comes before the first try that would need it.
    const signal = () => void this.#tell({ crew: 'signal', online: navigator.onLine });
    addEventListener('online', signal);
    addEventListener('offline', signal);
    document.addEventListener('visibilitychange', () => void this.look());
    onChanged(() => this.#later(AFTER_CHANGE_MS));
    if (navigator.onLine) void this.look();
    else signal();
  }

  /** Asks anew. */
  async look(): Promise<void> {
    if (this.#asking || document.hidden) return;
    this.#asking = true;
    try {
      this.state = await call({ crew: 'state', since: this.state?.turn ?? null });
      this.problem = null;
    } catch (error) {
      this.problem = asCallProblem(error);
    } finally {
      this.#asking = false;
    }
    this.#later(this.state?.running ? RUNNING_MS : LOOKING_MS);
  }

  /** Exchanges now. */
  now(): Promise<void> {
    return this.#tell({ crew: 'exchange' });
  }

  /** Stops the exchange that runs. */
  stop(): Promise<void> {
    return this.#tell({ crew: 'stop' });
  }

  async #tell(request: { crew: 'signal'; online: boolean } | { crew: 'exchange' } | { crew: 'stop' }): Promise<void> {
    try {
      const { turn: _, ...told } = await call(request);
      // The turn stays: what changed since it has not been heard yet.
      this.state = { ...told, turn: this.state?.turn ?? 0 };
      this.problem = null;
    } catch (error) {
      this.problem = asCallProblem(error);
    }
    this.#later(RUNNING_MS);
  }

  #later(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.look(), ms);
  }
}

export const exchange = new Exchange();
