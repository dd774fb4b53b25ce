// The settings of this device as every screen reads them, kept in the notebook.

import { call, type CallProblem } from '../call';
import type { Settings } from '../contract';
import { Action } from '../frame/action.svelte';
import { applyAppearance, lastAppearance } from '../frame/appearance';
import { asLanguage } from '../messages/language.svelte';
import { speak } from '../messages/words';

class Device {
  /** None until the notebook has said. */
  settings = $state.raw<Settings | null>(null);
  readonly #action = new Action();

  /** Why they could not be read or kept. */
  get problem(): CallProblem | null {
    return this.#action.problem;
  }

  /** Shows the page as it was last time, before the notebook has answered. */
  showLast(): void {
    const last = lastAppearance();
    applyAppearance(last);
  }

  async load(): Promise<void> {
    await this.#action.run(async () => this.#take(await call({ op: 'settings' })));
  }

  /** Keeps the changed settings; shows them at once and takes them back where they could not be kept. */
  async change(change: Partial<Settings>): Promise<boolean> {
    const before = this.settings;
    if (before === null) return false;
    const wanted = { ...before, ...change };
    this.#take(wanted);
    const kept = await this.#action.run(async () => this.#take(await call({ op: 'save_settings', ...wanted })));
    if (!kept) this.#take(before);
    return kept;
  }

  #take(answer: Settings & { op?: string }): void {
    const { op: _, ...settings } = answer;
    this.settings = settings;
    applyAppearance(settings);
    // Where the words of another language cannot be loaded, those that are there stay.
    speak(asLanguage(settings.language)).catch(() => undefined);
  }
}

export const device = new Device();
