import { describe, expect, it } from 'vitest';

import type { MapWalk } from '../contract';
import { bearing, direction, metersApart } from './ground';
import { planned } from './planned';

describe('on the ground', () => {
  it('knows a degree: a 360th of the circumference of the mean sphere', () => {
    const here = { latitude: 60, longitude: 10 };
    expect(metersApart(here, { latitude: 61, longitude: 10 })).toBeCloseTo(111_195, -1);
    // At 60 degrees a degree of longitude is half of that.
    expect(metersApart(here, { latitude: 60, longitude: 11 })).toBeCloseTo(55_597, -1);
  });

  it('names directions by the right hand from north', () => {
    const here = { latitude: 38, longitude: -98 };
    expect(direction(bearing(here, { latitude: 38.01, longitude: -98 }))).toBe('n');
    expect(direction(bearing(here, { latitude: 38, longitude: -97.99 }))).toBe('e');
    expect(direction(bearing(here, { latitude: 37.99, longitude: -98.0127 }))).toBe('sw');
    expect(direction(350)).toBe('n');
  });
});

describe('planned stops', () => {
  const plan = [0, 1, 2].map((at) => ({ latitude: 38 + at / 1000, longitude: -98 }));
  const walk = (...stops: { at?: number; heads: number }[]): MapWalk => ({
    walk: 'w',
    walked_on: '2026-08-20',
    finished: false,
    stops: stops.map(({ at, heads }, number) => ({
      stop: String(number),
      number: number + 1,
      place: at === undefined ? null : { latitude: at, longitude: -98, accuracy_m: 5 },
      heads,
    })),
  });
  const done = (of: MapWalk | undefined) => planned(plan, of).map((stop) => stop.done);

  it('are done where heads were read near them', () => {
    expect(done(undefined)).toEqual([false, false, false]);
    expect(done(walk({ at: 38.0011, heads: 5 }))).toEqual([false, true, false]);
    expect(done(walk({ at: 38.0011, heads: 0 }))).toEqual([false, false, false]);
    expect(done(walk({ at: 38.01, heads: 5 }))).toEqual([false, false, false]);
  });

  it('are done in order where no place is known, after those that are', () => {
    expect(done(walk({ heads: 5 }, { at: 38, heads: 5 }))).toEqual([true, true, false]);
  });

  it('are not done twice by two stops at one place', () => {
    expect(done(walk({ at: 38, heads: 5 }, { at: 38.0001, heads: 5 }))).toEqual([true, false, false]);
  });
});
