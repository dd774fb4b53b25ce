import { expect, it } from 'vitest';
import { v7 } from 'uuid';

import { headRule } from './which-head';

it('is the same for a stop each time, and differs between stops', () => {
  const stops = Array.from({ length: 400 }, () => v7());
  for (const stop of stops) expect(headRule(stop)).toEqual(headRule(stop));
  const rules = stops.map(headRule);
  expect(new Set(rules.map((rule) => rule.every))).toEqual(new Set([2, 3, 4, 5]));
  expect(new Set(rules.map((rule) => rule.paces))).toEqual(new Set([30, 35, 40, 45, 50, 55, 60]));
  const left = rules.filter((rule) => rule.side === 'left').length;
  // 400 fair draws leave 140 to 260 but for one time in a billion.
  expect(left).toBeGreaterThan(140);
  expect(left).toBeLessThan(260);
});
