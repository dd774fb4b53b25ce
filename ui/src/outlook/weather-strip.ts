// The strip of weather under the outlook chart.

import type { Day } from '../contract';

/** Lowest and highest of the strip, with the freezing mark kept in sight where it is near. */
export function reach(days: readonly Day[]): { coldest: number; hottest: number } {
  let coldest = Infinity;
  let hottest = -Infinity;
  for (const day of days) {
    coldest = Math.min(coldest, day.low_f);
    hottest = Math.max(hottest, day.high_f);
  }
  return { coldest: coldest < 45 ? Math.min(coldest, 30) : coldest - 2, hottest: hottest + 2 };
}
