// Storing an observation, new or corrected, from a screen that shows them all.

import { v7 as uuidv7 } from 'uuid';

import { call, onChanged, type CallProblem } from '../call';
import type { Observation, ObservedView } from '../contract';
import { asCallProblem, Asking } from '../frame/asking.svelte';
import { notices } from '../frame/notices.svelte';
import { say } from '../messages';
import { undoAsNotice } from './undo';

export class Observing {
  readonly asking = new Asking<{ op: 'observations'; planting: string }>();
  problem = $state.raw<CallProblem | null>(null);
  /** The one that is being corrected. */
  correcting = $state.raw<ObservedView | null>(null);
  saving = $state(false);
  readonly #planting: string;
  /** Made before it is sent, so that a retry stores nothing twice. */
  #id = uuidv7();

  constructor(planting: string) {
    this.#planting = planting;
  }

  /** Asks, and asks again whenever something of the planting changes; returns how to stop. */
  start(): () => void {
    const ask = () => this.asking.ask({ op: 'observations', planting: this.#planting });
    void ask();
    return onChanged((changed) => {
      if (changed.some((each) => each.kind === 'terms' || (each.kind === 'planting' && each.id === this.#planting)))
        void ask();
    });
  }

  /** Stores it; true once it is on the disk. */
  async keep(on: string, what: Observation, note: string): Promise<boolean> {
    const seen = { on: on === '' ? null : on, what, scout: null, note: note.trim() === '' ? null : note.trim() };
    this.saving = true;
    try {
      if (this.correcting === null) {
        await call({ op: 'observe', id: this.#id, planting: this.#planting, seen });
        this.#id = uuidv7();
      } else {
        await call({ op: 'correct_observed', id: this.correcting.id, to: seen });
        this.correcting = null;
      }
      this.problem = null;
      notices.show({ text: say.harvest.kept, ...undoAsNotice(this.#planting) });
      return true;
    } catch (error) {
      this.problem = asCallProblem(error);
      return false;
    } finally {
      this.saving = false;
    }
  }
}
