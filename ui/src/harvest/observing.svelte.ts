// The observations of a planting on a screen, and storing one, new or corrected.

import { v7 as uuidv7 } from 'uuid';

import { call } from '../call';
import type { Observation, ObservedView } from '../contract';
import { Action } from '../frame/action.svelte';
import { notices } from '../frame/notices.svelte';
import { query } from '../frame/query.svelte';
import { say } from '../messages';
import { undoAsNotice } from './undo';

export class Observing {
  readonly known;
  readonly saving = new Action();
  /** The one that is being corrected. */
  correcting = $state.raw<ObservedView | null>(null);
  readonly #planting: string;
  /** Made before it is sent, so that a retry stores nothing twice. */
  #id = uuidv7();

  /** Made with its screen, which it is asked for and ends with. */
  constructor(planting: string) {
    this.#planting = planting;
    this.known = query(['terms', { kind: 'planting', id: planting }], () => call({ op: 'observations', planting }));
  }

  /** Stores it; true once it is on the disk. */
  keep(on: string, what: Observation, note: string): Promise<boolean> {
    const seen = { on: on === '' ? null : on, what, scout: null, note: note.trim() === '' ? null : note.trim() };
    return this.saving.run(async () => {
      if (this.correcting === null) {
        await call({ op: 'observe', id: this.#id, planting: this.#planting, seen });
        this.#id = uuidv7();
      } else {
        await call({ op: 'correct_observed', id: this.correcting.id, to: seen });
        this.correcting = null;
      }
      notices.show({ text: say.harvest.kept, ...undoAsNotice(this.#planting) });
    });
  }
}
