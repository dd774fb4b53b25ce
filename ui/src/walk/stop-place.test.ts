import { describe, expect, it } from 'vitest';

import type { Place } from '../contract';
import { worthTelling } from './stop-place';

const at = (accuracy_m: number | null, north = 0, age_s = 1): Place => ({
  latitude: 38 + north / 111_195,
  longitude: -98,
  accuracy_m,
  age_s,
});

describe('a fix', () => {
  it('places a stop that has none, if it is fresh and good enough', () => {
    expect(worthTelling(null, at(12))).toBe(true);
    expect(worthTelling(null, at(250))).toBe(false);
    expect(worthTelling(null, at(12, 0, 90))).toBe(false);
    expect(worthTelling(null, at(null))).toBe(false);
  });

  it('takes the place of a much worse one at the same spot only', () => {
    expect(worthTelling(at(60), at(8))).toBe(true);
    expect(worthTelling(at(60), at(50))).toBe(false);
    expect(worthTelling(at(60), at(8, 90))).toBe(false);
  });

  it('leaves a place that no phone measured', () => {
    expect(worthTelling(at(null), at(4))).toBe(false);
  });
});
