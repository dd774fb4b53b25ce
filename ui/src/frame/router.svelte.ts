// Which screen is open, kept in the address's fragment: the screens are files
// that any server or none can hand out, and the phone's back button works.

import type { Component } from 'svelte';

/** Names of the tabs at the foot of the list screens. */
export type Tab = 'plantings' | 'more';

/** A screen and the addresses that open it. */
export interface Route {
  /** Parts of the address; one that starts with a colon is a parameter. */
  pattern: string;
  // Every screen takes its pattern's parameters as its properties.
  // eslint-disable-next-line @typescript-eslint/no-explicit-any
  screen: Component<any>;
  /** The tab it belongs to; screens without one hide the tab bar. */
  tab?: Tab;
}

/** An open screen. */
export interface Found {
  route: Route;
  parameters: Record<string, string>;
}

/** The first route whose pattern fits the path. */
export function match(routes: readonly Route[], path: string): Found | null {
  const parts = path.split('/').filter((part) => part !== '');
  for (const route of routes) {
    const wanted = route.pattern.split('/').filter((part) => part !== '');
    if (wanted.length !== parts.length) continue;
    const parameters: Record<string, string> = {};
    const fits = wanted.every((want, at) => {
      const part = parts[at] ?? '';
      if (!want.startsWith(':')) return want === part;
      parameters[want.slice(1)] = decodeURIComponent(part);
      return true;
    });
    if (fits) return { route, parameters };
  }
  return null;
}

const HOME = '/plantings';

function pathNow(): string {
  return location.hash.startsWith('#/') ? location.hash.slice(1) : HOME;
}

class Router {
  path = $state(HOME);
  /** Screens opened since the start; none means that "back" goes up instead. */
  #depth = 0;

  start(): void {
    this.path = pathNow();
    addEventListener('hashchange', () => {
      this.path = pathNow();
    });
  }

  /** Opens a screen. */
  go(path: string): void {
    this.#depth += 1;
    location.hash = path;
  }

  /** Opens a screen in the place of this one, so that "back" skips this one. */
  replace(path: string): void {
    history.replaceState(history.state, '', `#${path}`);
    this.path = path;
  }

  /** Goes back, or to `otherwise` where the app was opened on this screen. */
  back(otherwise: string): void {
    if (this.#depth > 0) {
      this.#depth -= 1;
      history.back();
    } else {
      this.replace(otherwise);
    }
  }
}

export const router = new Router();
