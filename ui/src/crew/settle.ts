// Settling what two people gave differently.

import type { Emptied, PlantingEdit, Request } from '../contract';
import { say } from '../messages';
import { date, number } from '../messages/format';

const EDITED = ['name', 'farm', 'field', 'hybrid', 'planted_on', 'half_bloom_on', 'purpose', 'area'] as const;
const EMPTIED: readonly Emptied[] = ['planted_on', 'half_bloom_on', 'area'];

/** The request that gives a field this value; null where none can. */
export function settling(planting: string, field: string, value: string): Request | null {
  if (field === 'station')
    return { op: 'use_station', planting, station: value === '' ? null : value, whole_field: false };
  if (!EDITED.some((known) => known === field)) return null;
  if (value === '') {
    const emptied = EMPTIED.find((known) => known === field);
    if (emptied) return { op: 'edit_planting', planting, edit: { ...nothing, clear: [emptied] } };
    if (!['farm', 'field', 'hybrid'].includes(field)) return null;
  }
  const given: unknown = field === 'area' ? JSON.parse(value) : value;
  return { op: 'edit_planting', planting, edit: { ...nothing, [field]: given } };
}

const nothing: PlantingEdit = {
  name: null,
  farm: null,
  field: null,
  hybrid: null,
  planted_on: null,
  purpose: null,
  area: null,
  clear: [],
};

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
