// Where things stand on the outlook chart: the stage line upright over the days.

import type { FanDay } from '../contract';
import { dayOf, xOf, type Across } from '../parts/days-across';
import { percentAt } from '../stage-line/geometry';

/** Place of a position (0-9 scale) up the chart: boot at the foot, black layer at the top. */
export function yOf(position: number, height: number): number {
  return height - (percentAt(position) / 100) * height;
}

/** The fan as outlines: what has been, and what lies ahead from today on. */
export interface FanShape {
  band: string;
  middle: string;
}

/** The outline and the middle line of a run of days; empty for fewer than two. */
export function fanShape(days: readonly FanDay[], across: Across, height: number): FanShape {
  if (days.length < 2) return { band: '', middle: '' };
  const at = (day: FanDay, position: number) =>
    `${xOf(across, dayOf(day.date)).toFixed(1)} ${yOf(position, height).toFixed(1)}`;
  const upper = days.map((day) => at(day, day.high));
  const lower = days.toReversed().map((day) => at(day, day.low));
  const middle = days.map((day) => at(day, day.mid));
  return { band: `M${upper.join('L')}L${lower.join('L')}Z`, middle: `M${middle.join('L')}` };
}

/** The days behind and the days ahead, which share the last day behind. */
export function split(days: readonly FanDay[]): { behind: FanDay[]; ahead: FanDay[] } {
  const first = days.findIndex((day) => day.ahead);
  if (first < 0) return { behind: [...days], ahead: [] };
  return { behind: days.slice(0, first), ahead: days.slice(Math.max(0, first - 1)) };
}

/** Moves smaller than this, in stages, are not seen on the chart. */
const STILL = 0.005;

/**
 * The fan without the days at its end on which nothing moves any more: after
 * the season is over for the crop, more of the same says nothing.
 */
export function withoutStill(days: readonly FanDay[]): FanDay[] {
  const last = days.at(-1);
  if (!last) return [];
  const moves = (day: FanDay) =>
    Math.max(Math.abs(day.low - last.low), Math.abs(day.mid - last.mid), Math.abs(day.high - last.high)) > STILL;
  const end = days.findLastIndex((day) => moves(day) || !day.ahead);
  return days.slice(0, end + 2);
}
