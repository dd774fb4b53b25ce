import { describe, expect, it } from 'vitest';

import { datesToName, dayAt, dayOf, isoOf, xOf } from './days-across';

const across = { from: dayOf('2026-08-01'), to: dayOf('2026-09-30'), width: 300 };

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

  it('leaves out names that would touch', () => {
    const year = { from: dayOf('2026-01-01'), to: dayOf('2026-12-31'), width: 300 };
    const named = datesToName(year, 60);
    expect(named.length).toBeGreaterThan(2);
    for (let at = 1; at < named.length; at += 1)
      expect(xOf(year, named[at]!) - xOf(year, named[at - 1]!)).toBeGreaterThanOrEqual(60);
  });
});
