// A band with its middle over dates, for moisture and for money.

import type { Band } from '../contract';
import { dayOf, xOf, type Across } from '../parts/days-across';

/** One day of a curve. */
export interface CurveDay {
  date: string;
  band: Band;
}

/** The values up the chart and the room they have. */
export interface Upright {
  low: number;
  high: number;
  height: number;
}

/** Place of a value up the chart. */
export function yOf(upright: Upright, value: number): number {
  const part = (value - upright.low) / Math.max(1e-9, upright.high - upright.low);
  return upright.height * (1 - part);
}

/** Outlines of the band and the middle line; empty for fewer than two days. */
export function curveShape(
  days: readonly CurveDay[],
  across: Across,
  upright: Upright,
): { band: string; middle: string } {
  if (days.length < 2) return { band: '', middle: '' };
  let upper = 'M';
  let lower = '';
  let middle = 'M';
  for (const [at, day] of days.entries()) {
    const x = xOf(across, dayOf(day.date)).toFixed(1);
    const join = at === 0 ? '' : 'L';
    upper += `${join}${x} ${yOf(upright, day.band.high).toFixed(1)}`;
    middle += `${join}${x} ${yOf(upright, day.band.mid).toFixed(1)}`;
    lower = `L${x} ${yOf(upright, day.band.low).toFixed(1)}${lower}`;
  }
  return { band: `${upper}${lower}Z`, middle };
}

/** Round steps that part a span into about so many. */
export function roundSteps(low: number, high: number, about: number): number[] {
  const rough = (high - low) / Math.max(1, about);
  if (!(rough > 0)) return [];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((each) => each >= rough) ?? rough;
  const steps: number[] = [];
  for (let at = Math.ceil(low / step) * step; at <= high + 1e-9; at += step) steps.push(Number(at.toFixed(9)));
  return steps;
}

/** The lowest and highest of the bands, with a little room. */
export function reachOf(days: readonly CurveDay[], further: readonly number[] = []): { low: number; high: number } {
  const values = [...days.flatMap((day) => [day.band.low, day.band.high]), ...further];
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = Math.max(1e-6, (high - low) * 0.06);
  return { low: low - room, high: high + room };
}
