// A measure as it is written: money as money, everything else with its unit
// behind it.

import { say } from '../messages';
import { money, number } from '../messages/format';
import type { Measure } from './measures';

/** A shown value with its unit. */
export function said(value: number, of: Measure): string {
  const unit = say.harvestTerms.unit[of.unit];
  if (unit.startsWith('$')) return `${money(value, Math.max(2, of.decimals))}${unit.slice(1)}`;
  return `${number(value, of.decimals)} ${unit}`;
}
