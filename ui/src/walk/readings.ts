// The readings in the order of growth, and which of them a planting is likely
// to show today.

import type { Reading, Stage, WalkPage } from '../contract';
import { bestOf } from '../stage-line/standing';

/** All readings in the order of growth. */
export const READINGS: readonly Reading[] = ['boot', 'emerging', 'bloom', 'liquid', 'pliable', 'dented', 'dark_spot'];

/** How many stand at full size without a swipe. */
export const AT_FULL_SIZE = 4;

// The reading that a head of a planting at this stage most often shows at its top.
const TYPICAL: Readonly<Record<Stage, Reading>> = {
  boot: 'boot',
  heading: 'emerging',
  half_bloom: 'bloom',
  milk: 'liquid',
  soft_dough: 'pliable',
  hard_dough: 'dented',
  black_layer: 'dark_spot',
};

/**
 * Place in READINGS of the first of those that stand at full size when a walk is
 * opened. It is settled once for a visit of the screen, so nothing moves under
 * the thumb: from what the planting showed (heads of this walk, else the walk
 * before), else from the days since it was planted.
 */
export function firstShown(page: Pick<WalkPage, 'stops' | 'now' | 'planting' | 'walked_on'>): number {
  const read = page.stops.flatMap((stop) => stop.heads.map((head) => READINGS.indexOf(head.head.reading)));
  if (read.length > 0) return startAround(Math.min(...read), Math.max(...read));

  const before = page.planting.last_walk ? bestOf(page.planting.last_walk.now) : bestOf(page.now);
  if (before) {
    const typical = READINGS.indexOf(TYPICAL[before.stage]);
    return startAround(typical, Math.min(typical + 1, READINGS.length - 1));
  }

  const days = page.planting.planted_on ? daysBetween(page.planting.planted_on, page.walked_on) : null;
  return days === null ? 2 : startAround(readingByDays(days), readingByDays(days));
}

/** One reading before the earliest, as many after as fit. */
function startAround(earliest: number, latest: number): number {
  const start = latest - earliest >= AT_FULL_SIZE - 1 ? earliest : earliest - 1;
  return Math.max(0, Math.min(start, READINGS.length - AT_FULL_SIZE));
}

// Days after emergence of boot, bloom, soft and hard dough and maturity
// (Vanderlip & Reeves 1972, Table 1), with a week from planting to emergence
// (common practice). Only for the choice of buttons; it enters no answer.
function readingByDays(sincePlanting: number): number {
  const sinceEmergence = sincePlanting - 7;
  const from: readonly [number, Reading][] = [
    [92, 'dark_spot'],
    [80, 'dented'],
    [69, 'pliable'],
    [64, 'liquid'],
    [58, 'bloom'],
    [54, 'emerging'],
  ];
  const found = from.find(([day]) => sinceEmergence >= day);
  return READINGS.indexOf(found ? found[1] : 'boot');
}

function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}
