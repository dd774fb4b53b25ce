// Settling what two people gave differently.

import type { Field, Request } from '../contract';
import { say } from '../messages';
import { date, number } from '../messages/format';

/** Fields that an edit of the planting does not give. */
const ELSEWHERE: readonly Field[] = ['outline', 'heat_set', 'merged_into', 'removed', 'newer'];

/** Fields that are left empty by a blank name. */
const NAMED: readonly Field[] = ['farm', 'field', 'hybrid'];

/** The request that gives a field this value; null where none can. */
export function settling(planting: string, field: Field, value: string): Request | null {
  if (field === 'station')
    return { op: 'use_station', planting, station: value === '' ? null : value, whole_field: false };
  if (ELSEWHERE.includes(field)) return null;
  if (value === '' && field === 'name') return null;
  if (value === '' && !NAMED.includes(field)) return { op: 'edit_planting', planting, edit: { clear: [field] } };
  const given: unknown = field === 'area' ? JSON.parse(value) : value;
  return { op: 'edit_planting', planting, edit: { [field]: given, clear: [] } };
}

/** A value as the screens say it. */
export function shownValue(field: string, value: string): string {
  if (value === '') return say.crew.none;
  if (field === 'planted_on' || field === 'half_bloom_on') return date(value);
  if (value === 'true' || value === 'false') return value === 'true' ? say.crew.yes : say.crew.no;
  if (field === 'purpose') return say.plantings.purpose[value as keyof typeof say.plantings.purpose] ?? value;
  if (field === 'area') {
    const { unit, size } = JSON.parse(value) as { unit: 'acres' | 'hectares'; size: number };
    return unit === 'acres' || unit === 'hectares' ? say.plantings[unit](size) : number(size);
  }
  return value;
}
