import { describe, expect, it } from 'vitest';

import { DRAG_STEP, shareAt, shareByKey, stepShare, TAP_STEP } from './share';

describe('shareAt', () => {
  it('taps to tenths of the head as drawn', () => {
    expect(shareAt(100 + 0.42 * 300, 100, 400, TAP_STEP)).toBe(40);
    expect(shareAt(100 + 0.46 * 300, 100, 400, TAP_STEP)).toBe(50);
  });

  it('drags to twentieths', () => {
    expect(shareAt(100 + 0.42 * 300, 100, 400, DRAG_STEP)).toBe(40);
    expect(shareAt(100 + 0.43 * 300, 100, 400, DRAG_STEP)).toBe(45);
  });

  it('never leaves 1 to 100, wherever the thumb is', () => {
    for (let y = -500; y <= 1500; y += 7) {
      for (const step of [TAP_STEP, DRAG_STEP]) {
        const share = shareAt(y, 100, 400, step);
        expect(share).toBeGreaterThanOrEqual(step);
        expect(share).toBeLessThanOrEqual(100);
        expect(Number.isInteger(share)).toBe(true);
      }
    }
  });
});

describe('stepShare', () => {
  it('goes to the next whole step', () => {
    expect(stepShare(40, 1, 5)).toBe(45);
    expect(stepShare(42, 1, 5)).toBe(45);
    expect(stepShare(42, -1, 5)).toBe(40);
    expect(stepShare(40, -1, 5)).toBe(35);
  });

  it('ends at 1 and 100', () => {
    expect(stepShare(5, -1, 5)).toBe(1);
    expect(stepShare(1, -1, 5)).toBe(1);
    expect(stepShare(1, 1, 5)).toBe(5);
    expect(stepShare(100, 1, 5)).toBe(100);
  });
});

describe('shareByKey', () => {
  it('follows the head: down the head is more', () => {
    expect(shareByKey('ArrowDown', 40)).toBe(41);
    expect(shareByKey('ArrowUp', 40)).toBe(39);
    expect(shareByKey('PageDown', 44)).toBe(50);
    expect(shareByKey('Home', 44)).toBe(1);
    expect(shareByKey('End', 44)).toBe(100);
    expect(shareByKey('x', 44)).toBeNull();
  });

  it('starts from the middle where nothing is said yet', () => {
    expect(shareByKey('ArrowDown', null)).toBe(51);
  });
});
