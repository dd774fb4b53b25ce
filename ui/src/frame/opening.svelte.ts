// The screen that is shown, which lags behind the address while a screen's code is
// loaded: the one before stays, unless it takes long enough to say so.

import { CallProblem } from '../call';
import type { Found, Route, Screen } from './router.svelte';

const SLOW_AFTER_MS = 300;

/** A screen whose code is there. */
export interface Opened {
  readonly path: string;
  readonly route: Route;
  readonly screen: Screen;
  readonly parameters: Record<string, string>;
}

export class Opening {
  /** None at the start, at an address that is none, and while loading is slow or failed. */
  shown = $state.raw<Opened | null>(null);
  /** True while the address is ahead of what is shown. */
  busy = $state(false);
  /** True once it has taken long enough that the app should say so. */
  slow = $state(false);
  problem = $state.raw<CallProblem | null>(null);
  #loaded = new Map<Route, Screen>();
  #latest = 0;

  /** Opens the screen that was found at an address: at once where its code is there. */
  async open(path: string, found: Found | null): Promise<void> {
    this.#latest += 1;
    const mine = this.#latest;
    this.problem = null;
    this.slow = false;
    this.busy = false;
    if (found === null) {
      this.shown = null;
      return;
    }
    const { route, parameters } = found;
    const there = this.#loaded.get(route);
    if (there !== undefined) {
      this.shown = { path, route, screen: there, parameters };
      return;
    }
    this.busy = true;
    const timer = setTimeout(() => {
      if (mine !== this.#latest) return;
      this.slow = true;
      this.shown = null;
    }, SLOW_AFTER_MS);
    try {
      const screen = await this.#load(route);
      if (mine === this.#latest) this.shown = { path, route, screen, parameters };
    } catch {
      if (mine !== this.#latest) return;
      this.shown = null;
      const message = 'the screen could not be loaded: is the desk still running?';
      this.problem = new CallProblem({ code: 'unavailable', message });
    } finally {
      clearTimeout(timer);
      if (mine === this.#latest) {
        this.slow = false;
        this.busy = false;
      }
    }
  }

  /**
   * Loads the code of every other screen, one at a time, so that each opens at once
   * later, and also where the desk has been stopped or built anew in the meantime.
   */
  async loadRest(routes: readonly Route[]): Promise<void> {
    for (const route of routes) {
      // What fails here is tried again when it is opened, and told then.
      await this.#load(route).catch(() => undefined);
    }
  }

  async #load(route: Route): Promise<Screen> {
    const screen = this.#loaded.get(route) ?? (await route.load());
    this.#loaded.set(route, screen);
    return screen;
  }
}
