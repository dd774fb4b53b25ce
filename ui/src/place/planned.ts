// Which of the planned stops are done, and which is next.

import type { MapWalk, Spot } from '../contract';
import { metersApart } from './ground';

/** A stop walked within this of a planned one is that one, meters. */
const NEAR_M = 35;
/** Where a phone knows its place badly, no more than this, meters. */
const FARTHEST_M = 100;

export interface Planned extends Spot {
  /** 1, 2, 3... in walking order. */
  number: number;
  done: boolean;
}

/**
 * The planned stops with those that were walked marked. A walked stop takes the
 * nearest planned one that is near enough; one whose place is not known takes the
 * first that is left. A stop without heads is still ahead.
 */
export function planned(plan: readonly Spot[], walk: MapWalk | undefined): Planned[] {
  const stops = plan.map((spot, at): Planned => ({ ...spot, number: at + 1, done: false }));
  const walked = walk?.stops.filter((stop) => stop.heads > 0) ?? [];
  for (const { place } of walked) {
    if (!place) continue;
    const reach = Math.min(FARTHEST_M, Math.max(NEAR_M, place.accuracy_m ?? 0));
    const near = stops
      .filter((stop) => !stop.done)
      .map((stop) => ({ stop, meters: metersApart(place, stop) }))
      .filter(({ meters }) => meters <= reach)
      .sort((a, b) => a.meters - b.meters)[0];
    if (near) near.stop.done = true;
  }
  for (const { place } of walked) {
    const first = place ? undefined : stops.find((stop) => !stop.done);
    if (first) first.done = true;
  }
  return stops;
}
