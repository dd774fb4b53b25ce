import { describe, expect, it } from 'vitest';

import type { HarvestTerm } from '../contract';
import {
  discountShown,
  discountStored,
  kgPerHectare,
  measureOf,
  perArea,
  perGrain,
  shownValue,
  storedValue,
} from './measures';

const shown = (term: HarvestTerm, value: number, units: 'us' | 'metric' = 'us') =>
  shownValue(value, measureOf(term, units, 'propane'));

describe('measures', () => {
  // Factors are definitions: 56 lb a bushel, 0.45359237 kg a pound.
  it('shows yields and prices as grain is traded', () => {
    expect(shown('yield', 56)).toBeCloseTo(100, 6);
    expect(shown('price', 8.5)).toBeCloseTo(4.76, 6);
    // 100 bu/ac are 6.277 t/ha.
    expect(shown('yield', 56, 'metric')).toBeCloseTo(6.28, 2);
    expect(shown('price', 8.5, 'metric')).toBeCloseTo(187.4, 1);
    expect(kgPerHectare(1)).toBeCloseTo(62.77, 2);
    expect(perGrain(8.5, 'us')).toBeCloseTo(4.76, 6);
  });

  it('goes back to what is stored, and stays within what is accepted', () => {
    for (const units of ['us', 'metric'] as const) {
      const of = measureOf('fuel_use', units, 'propane');
      expect(storedValue(shownValue(0.018, of), of, 0, 0.1)).toBeCloseTo(0.018, 3);
    }
    const lodged = measureOf('lodged', 'us', 'propane');
    expect(storedValue(150, lodged, 0, 1)).toBe(1);
    expect(discountStored(discountShown(10, 'us'), 'us')).toBeCloseTo(10, 6);
    expect(discountStored(discountShown(10, 'metric'), 'metric')).toBeCloseTo(10, 0);
  });

  it('counts money by the area of the settings', () => {
    expect(perArea(100, 'us')).toBe(100);
    expect(perArea(100, 'metric')).toBeCloseTo(247.1, 1);
  });
});
