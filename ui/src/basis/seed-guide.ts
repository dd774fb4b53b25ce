// A maturity class by the days a seed guide gives. The notebook's model knows the
// same classes (`MaturityClass::of_days`); they are common practice, from memory.

import type { MaturityClass } from '../contract';

const MOST_DAYS: readonly (readonly [MaturityClass, number])[] = [
  ['early', 57],
  ['medium_early', 63],
  ['medium', 68],
  ['medium_late', 74],
];

/** The class of so many days from planting to half bloom; null while it is no such number. */
export function classOfDays(text: string): MaturityClass | null {
  const days = /^\d{2,3}$/.test(text.trim()) ? Number(text.trim()) : null;
  if (days === null || days < 35 || days > 120) return null;
  return MOST_DAYS.find(([, most]) => days <= most)?.[0] ?? 'late';
}
