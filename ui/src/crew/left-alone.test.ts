import { describe, expect, it, vi } from 'vitest';

// The messages follow the settings, which follow the system's theme.
vi.hoisted(() => {
  const none = { matches: false, addEventListener: () => undefined };
  vi.stubGlobal('matchMedia', () => none);
  vi.stubGlobal('navigator', { language: 'en-US' });
});

import '../messages/spoken-in-tests';
import type { LeftAlone } from '../contract';
import { leftOut } from './left-alone';

const series = (series: string, who: string | null, why: LeftAlone, own = false) => ({ series, who, why, own });

describe('what an exchange left out', () => {
  it('is one line for the series of one person with one reason', () => {
    const lines = leftOut([
      series('1', 'Ben', 'not_signed'),
      series('2', 'Ben', 'not_signed'),
      series('3', 'Ben', 'other_key'),
      series('4', 'Ada', 'not_signed'),
    ]);
    expect(lines.map((line) => line.whose)).toEqual(['Entries of Ada', 'Entries of Ben', 'Entries of Ben']);
  });

  it('names this device and one of nobody known', () => {
    const lines = leftOut([series('1', 'Ben', 'not_taken', true), series('2', null, 'not_taken')]);
    expect(lines.map((line) => line.whose)).toEqual(['Entries of another device', 'Entries of this device']);
    expect(lines[0]?.advice).not.toBe(lines[1]?.advice);
  });

  it.each<LeftAlone>(['not_signed', 'other_key', 'not_taken', 'incoherent'])('has words for %s', (why) => {
    const [line] = leftOut([series('1', null, why)]);
    expect(line?.why).toMatch(/\.$/);
    expect(line?.advice).toMatch(/\.$/);
  });
});
