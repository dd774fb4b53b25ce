// Numbers, dates and spans of time in the language shown.

import { spoken } from './language.svelte';

/** A number with at most so many decimals. */
export function number(value: number, decimals = 0): string {
  return numbers({ maximumFractionDigits: decimals }).format(value);
}

// Making a format takes a slow phone longer than using it a hundred times.
const numberFormats = new Map<string, Intl.NumberFormat>();
const dateFormats = new Map<string, Intl.DateTimeFormat>();

function numbers(options: Intl.NumberFormatOptions): Intl.NumberFormat {
  const key = spoken.locale + JSON.stringify(options);
  const known = numberFormats.get(key) ?? new Intl.NumberFormat(spoken.locale, options);
  numberFormats.set(key, known);
  return known;
}

function dates(options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = spoken.locale + JSON.stringify(options);
  const known = dateFormats.get(key) ?? new Intl.DateTimeFormat(spoken.locale, options);
  dateFormats.set(key, known);
  return known;
}

/** US dollars with so many decimals, none by default. */
export function money(value: number, decimals = 0): string {
  return numbers({
    style: 'currency',
    currency: 'USD',
    currencyDisplay: 'narrowSymbol',
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  }).format(value);
}

/** A share (0-1) as whole hundredths, never 0 or 100 unless it is exactly that. */
export function hundredths(share: number): number {
  if (share <= 0) return 0;
  if (share >= 1) return 100;
  return Math.min(99, Math.max(1, Math.round(share * 100)));
}

/** A share (0-1) in whole hundredths, as it is written; it may be 0, or more than 100. */
export function percent(share: number): string {
  return number(share * 100);
}

/** A civil date, with its year where that is not this one's. */
export function date(iso: string, today?: string): string {
  const sameYear = today !== undefined && iso.slice(0, 4) === today.slice(0, 4);
  const parts: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'short', timeZone: 'UTC' };
  if (!sameYear) parts.year = 'numeric';
  return dates(parts).format(new Date(`${iso}T00:00:00Z`));
}

/** A civil date without its year, for the foot of a chart. */
export function shortDate(iso: string): string {
  return dates({ day: 'numeric', month: 'short', timeZone: 'UTC' }).format(new Date(`${iso}T00:00:00Z`));
}

/** Two civil dates as a span, "Sep 12 – 19"; one date where they are the same. */
export function dateSpan(from: string, to: string, today?: string): string {
  const year = today?.slice(0, 4);
  const parts: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'short', timeZone: 'UTC' };
  if (from.slice(0, 4) !== year || to.slice(0, 4) !== year) parts.year = 'numeric';
  return dates(parts).formatRange(new Date(`${from}T00:00:00Z`), new Date(`${to}T00:00:00Z`));
}

/** Today on this device's calendar. */
export function localToday(now = new Date()): string {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** A civil date with its weekday, for headings. */
export function longDate(iso: string): string {
  const parts: Intl.DateTimeFormatOptions = { weekday: 'long', day: 'numeric', month: 'long', timeZone: 'UTC' };
  return dates(parts).format(new Date(`${iso}T00:00:00Z`));
}

/** "today", "yesterday", "6 days ago". */
export function ago(days: number): string {
  return new Intl.RelativeTimeFormat(spoken.locale, { numeric: 'auto' }).format(-days, 'day');
}

/** An instant on this device's clock: the time of today, else the day with it. */
export function moment(ms: number, now = new Date()): string {
  const at = new Date(ms);
  const parts: Intl.DateTimeFormatOptions = { hour: 'numeric', minute: '2-digit' };
  if (localToday(at) !== localToday(now)) Object.assign(parts, { day: 'numeric', month: 'short' });
  return new Intl.DateTimeFormat(spoken.locale, parts).format(at);
}

/** An instant in full, as of another device's clock, which may be years ahead. */
export function exactMoment(ms: number): string {
  return dates({ dateStyle: 'medium', timeStyle: 'short' }).format(new Date(ms));
}
