// The screen that is shown, which lags behind the address while a screen's code is
// loaded: the one before stays, unless it takes long enough to say so.

import type { Component } from 'svelte';

import { CallProblem } from '../call';
import type { Found, Route } from './router.svelte';

const SLOW_AFTER_MS = 300;

/** A screen whose code is there. */
export interface Opened {
  readonly path: string;
  readonly route: Route;
  readonly screen: Component;
}

export class Opening {
  /** None at the start, at an address that is none, and while loading is slow or failed. */
  shown = $state.raw<Opened | null>(null);
  /** True while the address is ahead of what is shown. */
  busy = $state(false);
  /** True once it has taken long enough that the app should say so. */
  slow = $state(false);
  problem = $state.raw<CallProblem | null>(null);
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
    if (this.#show(path, found)) return;
    this.busy = true;
    const timer = setTimeout(() => {
      if (mine !== this.#latest) return;
      this.slow = true;
      this.shown = null;
    }, SLOW_AFTER_MS);
    try {
      await found.route.load();
      if (mine === this.#latest) this.#show(path, found);
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
      await route.load().catch(() => undefined);
    }
  }

  /** Shows a screen whose code is there; false where it is not. */
  #show(path: string, { route, screen }: Found): boolean {
    const there = screen();
    if (there !== null) this.shown = { path, route, screen: there };
    return there !== null;
  }
}
