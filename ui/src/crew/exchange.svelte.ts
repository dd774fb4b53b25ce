// Where this device stands with its crew, as every screen shows it. Asked often
// while an exchange runs, now and then while somebody looks, never while nobody does.

import { asCallProblem, call, subscribe, type AnswerTo, type CallProblem } from '../call';

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
    subscribe('anything', () => this.#later(AFTER_CHANGE_MS));
    if (navigator.onLine) void this.look();
    else signal();
  }

  /** Asks anew. */
  async look(): Promise<void> {
    if (this.#asking || document.hidden) return;
    this.#asking = true;
    await this.#take(async () => call({ crew: 'state', since: this.state?.turn ?? null }));
    this.#asking = false;
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
    await this.#take(async () => {
      // The turn stays: what changed since it has not been heard yet.
      return { ...(await call(request)), turn: this.state?.turn ?? 0 };
    });
    this.#later(RUNNING_MS);
  }

  async #take(answer: () => Promise<State>): Promise<void> {
    try {
      this.state = await answer();
      this.problem = null;
    } catch (error) {
      this.problem = asCallProblem(error);
    }
  }

  #later(ms: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.look(), ms);
  }
}

export const exchange = new Exchange();
