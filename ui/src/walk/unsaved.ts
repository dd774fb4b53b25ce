// Heads that the notebook has not confirmed yet, kept beside the page so that a
// reload or a restart of the app in the middle of a save loses none. Their ids
// are made here; sending one twice stores it once.

import type { NewHead } from '../contract';

export interface UnsavedHead {
  id: string;
  walk: string;
  stop: string;
  head: NewHead;
  /** Taken back before the notebook confirmed it. It may have been stored all the same: the notebook is still to be told. */
  dropped?: boolean;
}

const KEPT = 'headwalk.unsaved';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

function all(store: Store): UnsavedHead[] {
  try {
    const kept: unknown = JSON.parse(store.getItem(KEPT) ?? '[]');
    return Array.isArray(kept) ? (kept as UnsavedHead[]) : [];
  } catch {
    return [];
  }
}

/** The unsaved heads of a walk, in the order read. */
export function unsavedOf(store: Store, walk: string): UnsavedHead[] {
  return all(store).filter((head) => head.walk === walk);
}

/** Keeps the unsaved heads of a walk in place of those kept before. */
export function keepUnsaved(store: Store, walk: string, heads: readonly UnsavedHead[]): void {
  const kept = [...all(store).filter((head) => head.walk !== walk), ...heads];
  if (kept.length === 0) store.removeItem(KEPT);
  else store.setItem(KEPT, JSON.stringify(kept));
}
