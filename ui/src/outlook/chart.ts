// Where things stand on the outlook chart: dates across, the stage line upright.

import type { FanDay } from '../contract';
import { percentAt } from '../stage-line/geometry';

const DAY_MS = 86_400_000;

/** A civil date as a count of days, so that dates can be reckoned with. */
export function dayOf(iso: string): number {
  return Math.round(Date.parse(`${iso}T00:00:00Z`) / DAY_MS);
}

/** The civil date of a count of days. */
export function isoOf(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** The dates across the chart and the room they have. */
export interface Across {
  from: number;
  to: number;
  width: number;
}

/** Place of a day across the chart. */
export function xOf(across: Across, day: number): number {
  const part = (day - across.from) / Math.max(1, across.to - across.from);
  return part * across.width;
}

/** The day at a place across the chart, held to its ends. */
export function dayAt(across: Across, x: number): number {
  const part = Math.min(1, Math.max(0, x / across.width));
  return Math.round(across.from + part * (across.to - across.from));
}

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

/**
 * Days to name across the chart: the first of each month, and its middle too
 * where there is room for both; none nearer to the one before than `room`.
 */
export function datesToName(across: Across, room: number): number[] {
  const perDay = across.width / Math.max(1, across.to - across.from);
  const halves = perDay * 15 >= room;
  const named: number[] = [];
  for (let day = across.from; day <= across.to; day += 1) {
    const ofMonth = Number(isoOf(day).slice(8));
    if (ofMonth !== 1 && !(halves && ofMonth === 16)) continue;
    const before = named.at(-1);
    if (before === undefined || (day - before) * perDay >= room) named.push(day);
  }
  return named;
}
