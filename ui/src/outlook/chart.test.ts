import { describe, expect, it } from 'vitest';

import type { FanDay } from '../contract';
import { dayOf } from '../parts/days-across';
import { fanShape, split, withoutStill, yOf } from './chart';

const across = { from: dayOf('2026-08-01'), to: dayOf('2026-09-30'), width: 300 };
const day = (date: string, mid: number, ahead: boolean): FanDay => ({
  date,
  low: mid - 0.2,
  mid,
  high: mid + 0.2,
  ahead,
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

  it('draws nothing for a single day', () => {
    expect(fanShape([day('2026-08-10', 6, false)], across, 200)).toEqual({ band: '', middle: '' });
  });
});
