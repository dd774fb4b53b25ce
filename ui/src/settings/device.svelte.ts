// The settings of this device as every screen reads them, kept in the notebook.

import { call } from '../call';
import type { Settings } from '../contract';
import { applyAppearance, lastAppearance } from '../frame/appearance';
import { asCallProblem } from '../frame/asking.svelte';
import type { CallProblem } from '../call';
import { asLanguage } from '../messages/language.svelte';
import { speak } from '../messages/words';

class Device {
  /** None until the notebook has said. */
  settings = $state.raw<Settings | null>(null);
  problem = $state.raw<CallProblem | null>(null);

  /** Shows the page as it was last time, before the notebook has answered. */
  showLast(): void {
    const last = lastAppearance();
    applyAppearance(last);
  }

  async load(): Promise<void> {
    try {
      this.#take(await call({ op: 'settings' }));
    } catch (error) {
      this.problem = asCallProblem(error);
    }
  }

  /** Keeps the changed settings; shows them at once and takes them back where they could not be kept. */
  async change(change: Partial<Settings>): Promise<boolean> {
    const before = this.settings;
    if (before === null) return false;
    const wanted = { ...before, ...change };
    this.#take(wanted);
    try {
      this.#take(await call({ op: 'save_settings', ...wanted }));
      return true;
    } catch (error) {
      this.#take(before);
      this.problem = asCallProblem(error);
      return false;
    }
  }

  #take(answer: Settings & { op?: string }): void {
    const { op: _, ...settings } = answer;
    this.settings = settings;
    this.problem = null;
    applyAppearance(settings);
    // Where the words of another language cannot be loaded, those that are there stay.
    speak(asLanguage(settings.language)).catch(() => undefined);
  }
}

export const device = new Device();
