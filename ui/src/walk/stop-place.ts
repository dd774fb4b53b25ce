// When a position is worth telling of a stop.

import type { Place } from '../contract';
import { metersApart } from '../place/ground';

/** A fix worse than this places no stop, meters. */
const WORST_M = 100;
/** An older one is of the way here, seconds. */
const OLDEST_S = 30;
/** A later fix counts where its circle is this much smaller. */
const BETTER = 0.6;

/** Whether a stop with this place (or none) should get that one. */
export function worthTelling(known: Place | null, fix: Place): boolean {
  const accuracy = fix.accuracy_m ?? Infinity;
  if (accuracy > WORST_M || (fix.age_s ?? 0) > OLDEST_S) return false;
  if (known === null) return true;
  // A place that did not come from a phone, a file's say, is left alone.
  if (known.accuracy_m == null) return false;
  // A scout who has walked on to the next heads of the stop has not moved the stop.
  return accuracy < BETTER * known.accuracy_m && metersApart(known, fix) <= known.accuracy_m;
}
