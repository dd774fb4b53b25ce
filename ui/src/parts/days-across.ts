// Days across a chart: civil dates as places, and back.

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
