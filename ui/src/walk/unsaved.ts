// Stops, heads and changes to heads that the notebook has not confirmed yet, in
// the order made. They are kept beside the page, so that a reload or a restart of the app in the
// middle of a save loses none. Ids are made here; sending one twice stores it
// once.

import type { NewHead, Place } from '../contract';

export interface UnsavedStop {
  kind: 'stop';
  id: string;
  walk: string;
  /** Where, if known when it was opened. */
  place?: Place | null;
}

export interface UnsavedHead {
  kind: 'head';
  id: string;
  walk: string;
  stop: string;
  head: NewHead;
  /** Taken back before the notebook confirmed it. It may have been stored all the same: the notebook is still to be told. */
  dropped?: boolean;
}

/** What a head that is stored is to say from now on. */
export interface UnsavedChange {
  kind: 'change';
  id: string;
  walk: string;
  head: string;
  to: NewHead;
}

export type Unsaved = UnsavedStop | UnsavedHead | UnsavedChange;

const KEPT = 'headwalk.unsaved';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

function all(store: Store): Unsaved[] {
  try {
    const kept: unknown = JSON.parse(store.getItem(KEPT) ?? '[]');
    return Array.isArray(kept) ? (kept as Unsaved[]) : [];
  } catch {
    return [];
  }
}

/** What of a walk is unsaved, in the order made. */
export function unsavedOf(store: Store, walk: string): Unsaved[] {
  return all(store).filter((each) => each.walk === walk);
}

/** Keeps what of a walk is unsaved in the place of what was kept before. */
export function keepUnsaved(store: Store, walk: string, unsaved: readonly Unsaved[]): void {
  const kept = [...all(store).filter((each) => each.walk !== walk), ...unsaved];
  if (kept.length === 0) store.removeItem(KEPT);
  else store.setItem(KEPT, JSON.stringify(kept));
}
