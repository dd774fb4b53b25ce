import type { HeatSetRow, MaturityClass } from '../contract';
import { words } from './words';

export const basis = {
  /** A station with how far it is and until when its weather goes, as far as known. */
  stationLine(name: string, km: number | null, last: string | null): string {
    const parts = [name];
    if (km !== null) parts.push(words.basis.stationDistance(km));
    if (last !== null) parts.push(words.basis.stationUntil(last));
    return parts.join(', ');
  },
  setLine({ set }: HeatSetRow): string {
    const degrees = words.basis.units[set.unit];
    return set.method === 'plain_mean'
      ? words.basis.setBase(set.base, degrees)
      : words.basis.setLimits(set.base, set.upper, degrees);
  },
  maturityKnown: (name: MaturityClass): string => words.basis.maturityOf[name],
};
