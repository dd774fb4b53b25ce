import { expect, it } from 'vitest';

import { percentOfPace, stretchOf } from './pace-line';

it('puts the table in the middle and holds to its ends', () => {
  expect(percentOfPace(1)).toBeCloseTo(50);
  expect(percentOfPace(0.5)).toBe(0);
  expect(percentOfPace(2)).toBe(100);
});

it('never lets a band shrink to a dot', () => {
  expect(stretchOf({ low: 1, mid: 1, high: 1 }).width).toBeGreaterThan(0);
  const wide = stretchOf({ low: 0.9, mid: 1, high: 1.1 });
  expect(wide.left).toBeLessThan(50);
  expect(wide.left + wide.width).toBeGreaterThan(50);
});
