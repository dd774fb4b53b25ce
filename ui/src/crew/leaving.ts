// When a crew may be left without its hub.

import type { Trouble } from '../call';

/** Trouble that a lost hub, or one that stands in its place, may be behind. */
const THE_HUB: readonly Trouble[] = [
  'no_signal',
  'not_trusted',
  'not_let_in',
  'hub_busy',
  'hub_full',
  'hub_version',
  'not_in_crew',
  'parted',
];

/**
 * Whether leaving that ended in this trouble may go on without the hub. Where the hub
 * answers and says why not, as to the last owner, it may not.
 */
export function mayLeaveHere(code: Trouble): boolean {
  return THE_HUB.includes(code);
}
