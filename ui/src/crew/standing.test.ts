import { describe, expect, it, vi } from 'vitest';

// The messages follow the settings, which follow the system's theme.
vi.hoisted(() => {
  const none = { matches: false, addEventListener: () => undefined };
  vi.stubGlobal('matchMedia', () => none);
  vi.stubGlobal('navigator', { language: 'en-US' });
});

import '../messages/spoken-in-tests';
import type { CrewState } from '../contract';
import { progress, standing, waits } from './standing';

const step = (done: number, all: number) => ({ done, all });
const nothing = step(0, 0);

describe('progress', () => {
  it('counts heads where there are any, and the photos that are left', () => {
    const running = { sent: step(30, 44), heads_sent: step(143, 210), received: nothing, photos: step(1, 4) };
    expect(progress(running)).toBe('143 of 210 heads sent, 3 photos left');
  });

  it('counts entries where no head is among them', () => {
    const running = { sent: step(1, 2), heads_sent: nothing, received: step(200, 900), photos: nothing };
    expect(progress(running)).toBe('1 of 2 entries sent, 200 of 900 entries received');
  });

  it('claims nothing before the hub has answered', () => {
    const running = { sent: nothing, heads_sent: nothing, received: nothing, photos: nothing };
    expect(progress(running)).toBe('Asking the hub');
  });
});

describe('what waits', () => {
  it.each([
    [{ changes: 0, heads: 0, photos: 0 }, 'up to date'],
    [{ changes: 1, heads: 0, photos: 0 }, '1 entry waits'],
    [{ changes: 9, heads: 1, photos: 0 }, '1 head waits'],
    [{ changes: 9, heads: 7, photos: 2 }, '7 heads, 2 photos wait'],
    [{ changes: 0, heads: 0, photos: 1 }, '1 photo waits'],
  ])('%o is "%s"', (waiting, said) => expect(waits(waiting)).toBe(said));

  it('stands beside the last exchange', () => {
    const state: CrewState = {
      member: null,
      last: null,
      waiting: { changes: 0, heads: 0, photos: 0 },
      left_alone: [],
      moved: null,
      moved_why: 'written_elsewhere',
      running: null,
      trouble: null,
      next_at: null,
      turn: 0,
    };
    expect(standing(state)).toBe('Nothing exchanged yet · up to date');
  });
});
