import { describe, expect, it } from 'vitest';

import type { PlantingRow, Reading, WalkPage } from '../contract';
import { AT_FULL_SIZE, firstShown, READINGS } from './readings';

function page(read: Reading[], planted_on: string | null): Parameters<typeof firstShown>[0] {
  const heads = read.map((reading, at) => ({
    id: String(at),
    number: at + 1,
    head: { reading, share: reading === 'boot' ? null : 50 },
    flags: [],
    note: null,
    recorded_at: '2026-08-20T09:00:00-05:00',
    corrected: false,
  }));
  return {
    walked_on: '2026-08-20',
    stops: [{ id: 's', number: 1, place: null, heads }],
    planting: { planted_on, last_walk: null } as unknown as PlantingRow,
    now: { alone: null, with_history: null, contradiction: null } as unknown as WalkPage['now'],
  };
}

const shown = (read: Reading[], planted: string | null = null) => {
  const first = firstShown(page(read, planted));
  return READINGS.slice(first, first + AT_FULL_SIZE);
};

describe('firstShown', () => {
  it('shows what was read, the one before it and those that can follow', () => {
    expect(shown(['pliable', 'pliable'])).toEqual(['liquid', 'pliable', 'dented', 'dark_spot']);
    expect(shown(['liquid', 'pliable'])).toEqual(['bloom', 'liquid', 'pliable', 'dented']);
    expect(shown(['boot'])).toEqual(['boot', 'emerging', 'bloom', 'liquid']);
    expect(shown(['dark_spot'])).toEqual(['liquid', 'pliable', 'dented', 'dark_spot']);
  });

  it('goes by the days since planting where nothing was read', () => {
    expect(shown([], '2026-07-15')).toContain('boot');
    expect(shown([], '2026-05-15')).toContain('dark_spot');
  });

  it('always has four to show', () => {
    for (const reading of READINGS) expect(shown([reading])).toHaveLength(AT_FULL_SIZE);
    expect(shown([])).toHaveLength(AT_FULL_SIZE);
  });
});
