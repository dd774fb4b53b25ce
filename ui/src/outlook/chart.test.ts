import { describe, expect, it } from 'vitest';

import type { FanDay } from '../contract';
import { datesToName, dayAt, dayOf, fanShape, isoOf, split, withoutStill, xOf, yOf } from './chart';

const across = { from: dayOf('2026-08-01'), to: dayOf('2026-09-30'), width: 300 };
const day = (date: string, mid: number, ahead: boolean): FanDay => ({
  date,
  low: mid - 0.2,
  mid,
  high: mid + 0.2,
  ahead,
});

describe('dates across the chart', () => {
  it('goes over months, years and leap days', () => {
    expect(isoOf(dayOf('2028-02-28') + 1)).toBe('2028-02-29');
    expect(isoOf(dayOf('2026-12-31') + 1)).toBe('2027-01-01');
  });

  it('finds the day under a finger, held to the ends', () => {
    expect(isoOf(dayAt(across, xOf(across, dayOf('2026-09-05'))))).toBe('2026-09-05');
    expect(isoOf(dayAt(across, -40))).toBe('2026-08-01');
    expect(isoOf(dayAt(across, 900))).toBe('2026-09-30');
  });

  it('names the middles of months only where there is room', () => {
    expect(datesToName(across, 60).map(isoOf)).toEqual(['2026-08-01', '2026-08-16', '2026-09-01', '2026-09-16']);
    expect(datesToName(across, 100).map(isoOf)).toEqual(['2026-08-01', '2026-09-01']);
  });
});

describe('the fan', () => {
  it('rises from boot at the foot to black layer at the top', () => {
    expect(yOf(5, 200)).toBe(200);
    expect(yOf(9, 200)).toBe(0);
    expect(yOf(7, 200)).toBeGreaterThan(yOf(8, 200));
  });

  it('joins what has been and what lies ahead in the last day behind', () => {
    const days = [day('2026-08-10', 6, false), day('2026-08-14', 6.4, false), day('2026-08-18', 6.8, true)];
    const { behind, ahead } = split(days);
    expect(behind.map((each) => each.date)).toEqual(['2026-08-10', '2026-08-14']);
    expect(ahead.map((each) => each.date)).toEqual(['2026-08-14', '2026-08-18']);
  });

  it('goes out along the upper end and back along the lower', () => {
    const shape = fanShape([day('2026-08-10', 6, false), day('2026-08-20', 7, false)], across, 200);
    expect(shape.band.split('L')).toHaveLength(4);
    expect(shape.band.endsWith('Z')).toBe(true);
    expect(shape.middle.split('L')).toHaveLength(2);
  });

  it('ends where nothing moves any more, and never before today', () => {
    const still = ['2026-10-01', '2026-10-05', '2026-10-09', '2026-10-13'].map((date) => day(date, 8.8, true));
    const rising = day('2026-09-20', 8, true);
    expect(withoutStill([rising, ...still]).map((each) => each.date)).toEqual(['2026-09-20', '2026-10-01']);
    const behind = ['2026-09-01', '2026-09-05'].map((date) => day(date, 9, false));
    expect(withoutStill(behind)).toEqual(behind);
    expect(withoutStill([])).toEqual([]);
  });

  it('leaves out names that would touch', () => {
    const year = { from: dayOf('2026-01-01'), to: dayOf('2026-12-31'), width: 300 };
    const named = datesToName(year, 60);
    expect(named.length).toBeGreaterThan(2);
    for (let at = 1; at < named.length; at += 1)
      expect(xOf(year, named[at]!) - xOf(year, named[at - 1]!)).toBeGreaterThanOrEqual(60);
  });

  it('draws nothing for a single day', () => {
    expect(fanShape([day('2026-08-10', 6, false)], across, 200)).toEqual({ band: '', middle: '' });
  });
});
