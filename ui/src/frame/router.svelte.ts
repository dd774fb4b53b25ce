// Which screen is open, kept in the address's fragment: the screens are files
// that any server or none can hand out, and the phone's back button works.

import type { Component } from 'svelte';

/** Names of the tabs at the foot of the list screens. */
export type Tab = 'plantings' | 'fortnight' | 'more';

/** The parameters of a pattern: a text for each part that starts with a colon. */
export type Parameters<Pattern extends string> = Pattern extends `/${infer Part}/${infer Rest}`
  ? ParameterOf<Part> & Parameters<`/${Rest}`>
  : Pattern extends `/${infer Part}`
    ? ParameterOf<Part>
    : unknown;

type ParameterOf<Part extends string> = Part extends `:${infer Name}` ? Record<Name, string> : unknown;

/** A screen and the addresses that open it. */
export interface Route {
  /** Parts of the address; one that starts with a colon is a parameter. */
  readonly pattern: string;
  /** The tab it belongs to; screens without one hide the tab bar. */
  readonly tab: Tab | undefined;
  /** Loads the screen's code, which is a file of its own and is kept once it is there. */
  readonly load: () => Promise<unknown>;
  /** The screen at a path; null where the pattern does not fit. */
  readonly match: (path: string) => Found | null;
}

/** A screen that was found at a path. */
export interface Found {
  readonly route: Route;
  /** The screen with the parameters of its path; null while its code is not there. */
  readonly screen: () => Component | null;
}

/** A route to a screen that takes the parameters of its pattern, and no others, as its properties. */
export function route<Pattern extends string>(
  pattern: Pattern,
  code: () => Promise<{ default: Component<Parameters<Pattern> & {}> }>,
  tab?: Tab,
): Route {
  let loaded: Component<Parameters<Pattern> & {}> | null = null;
  const found: Route = {
    pattern,
    tab,
    load: async () => (loaded ??= (await code()).default),
    match(path) {
      const parameters = parametersIn(pattern, path);
      if (parameters === null || !hasParameters(pattern, parameters)) return null;
      return {
        route: found,
        screen() {
          const screen = loaded;
          return screen && ((internals) => screen(internals, parameters));
        },
      };
    },
  };
  return found;
}

const partsOf = (path: string) => path.split('/').filter((part) => part !== '');

/** What stands in a path where its pattern has parameters; null where they do not fit. */
function parametersIn(pattern: string, path: string): Record<string, string> | null {
  const [wanted, parts] = [partsOf(pattern), partsOf(path)];
  if (wanted.length !== parts.length) return null;
  const parameters: Record<string, string> = {};
  for (const [at, want] of wanted.entries()) {
    const part = parts[at] ?? '';
    if (want.startsWith(':')) parameters[want.slice(1)] = decodeURIComponent(part);
    else if (want !== part) return null;
  }
  return parameters;
}

function hasParameters<Pattern extends string>(
  pattern: Pattern,
  found: Record<string, string>,
): found is Record<string, string> & Parameters<Pattern> {
  return partsOf(pattern).every((part) => !part.startsWith(':') || part.slice(1) in found);
}

/** The first route whose pattern fits the path. */
export function match(routes: readonly Route[], path: string): Found | null {
  for (const route of routes) {
    const found = route.match(path);
    if (found) return found;
  }
  return null;
}

const HOME = '/plantings';

function pathNow(): string {
  return location.hash.startsWith('#/') ? location.hash.slice(1) : HOME;
}

/** What the browser's history keeps beside each address. */
interface Entry {
  /** Screens opened before this one since the app was started. */
  depth: number;
}

class Router {
  path = $state(HOME);
  /** How far the screen at the path was scrolled when it was last left; 0 for a new one. */
  left = 0;
  /** None means that "back" goes up instead. */
  #depth = 0;
  /** How far each screen on the way here was scrolled. */
  #scrolled: number[] = [];

  start(): void {
    history.scrollRestoration = 'manual';
    this.#enter((history.state as Entry | null)?.depth ?? 0);
    this.#open(pathNow());
    addEventListener('hashchange', () => {
      // An address that was open before has its depth; a new one gets the next.
      const known = history.state as Entry | null;
      if (known === null) this.#scrolled.length = this.#depth + 1;
      this.#enter(known?.depth ?? this.#depth + 1);
      this.#open(pathNow());
    });
    addEventListener('scroll', () => (this.#scrolled[this.#depth] = scrollY), { passive: true });
  }

  #enter(depth: number): void {
    this.#depth = depth;
    history.replaceState({ depth } satisfies Entry, '');
  }

  #open(path: string): void {
    // Taken now: until the next screen is there, the one before may still be scrolled.
    this.left = this.#scrolled[this.#depth] ?? 0;
    this.path = path;
  }

  /** Opens a screen. */
  go(path: string): void {
    location.hash = path;
  }

  /** Opens a screen in the place of this one, so that "back" skips this one. */
  replace(path: string): void {
    this.#scrolled[this.#depth] = 0;
    history.replaceState({ depth: this.#depth } satisfies Entry, '', `#${path}`);
    this.#open(path);
  }

  /** Goes back, or to `otherwise` where the app was opened on this screen. */
  back(otherwise: string): void {
    if (this.#depth > 0) history.back();
    else this.replace(otherwise);
  }
}

export const router = new Router();
