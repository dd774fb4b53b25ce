// Where a pace stands on its line.

import type { Band } from '../contract';

/** Ends of the line: a little beyond any hybrid the tables know. */
export const SLOWEST = 0.8;
export const FASTEST = 1.25;

/** Place on the line, 0-100, by the ratio: 0.8 lies as far below 1 as 1.25 above. */
export function percentOfPace(pace: number): number {
  const part = Math.log(pace / SLOWEST) / Math.log(FASTEST / SLOWEST);
  return 100 * Math.min(1, Math.max(0, part));
}

/** A band's left end and width on the line, 0-100. */
export function stretchOf(band: Band): { left: number; width: number } {
  const left = percentOfPace(band.low);
  return { left, width: Math.max(0.5, percentOfPace(band.high) - left) };
}
