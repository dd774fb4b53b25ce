import { describe, expect, it } from 'vitest';

import { curveShape, reachOf, roundSteps, yOf } from './curve';

const days = [
  { date: '2026-09-16', band: { low: 18, mid: 20, high: 22 } },
  { date: '2026-09-17', band: { low: 17, mid: 19, high: 21 } },
];
const across = { from: 20712, to: 20713, width: 100 };

describe('curves', () => {
  it('draws the band with two ends and its middle', () => {
    const upright = { low: 10, high: 30, height: 200 };
    expect(yOf(upright, 20)).toBe(100);
    const shape = curveShape(days, across, upright);
    expect(shape.band).toBe('M0.0 80.0L100.0 90.0L100.0 130.0L0.0 120.0Z');
    expect(shape.middle).toBe('M0.0 100.0L100.0 110.0');
    expect(curveShape(days.slice(1), across, upright).band).toBe('');
  });

  it('finds round steps and the reach', () => {
    expect(roundSteps(11, 31, 4)).toEqual([15, 20, 25, 30]);
    expect(roundSteps(-3, 3, 3)).toEqual([-2, 0, 2]);
    expect(roundSteps(5, 5, 3)).toEqual([]);
    const reach = reachOf(days, [14]);
    expect(reach.low).toBeLessThan(14);
    expect(reach.high).toBeGreaterThan(22);
  });
});
