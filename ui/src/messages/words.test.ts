import { afterAll, describe, expect, it } from 'vitest';

import './spoken-in-tests';
import { speak, words } from './words';

afterAll(() => speak('en'));

describe('the catalogue of words', () => {
  it('gives texts, tables, and texts with arguments, in the language spoken', async () => {
    await speak('es');
    expect(words.common.back).toBe('Atrás');
    expect(words.common.stage.boot).toBe('embuche');
    expect(words.walk.headsHere(3)).toBe('Panojas de la parada 3');
    await speak('en');
    expect(words.common.back).toBe('Back');
    expect(words.walk.headsHere(3)).toBe('Heads of stop 3');
  });

  it('counts in the singular and the plural', () => {
    expect(words.plantings.found(1)).toBe('1 planting');
    expect(words.plantings.found(2500)).toBe('2,500 plantings');
    expect(words.walk.whichHead(30, 22, 'left')).toContain('every 22nd plant on your left');
  });

  it('writes dates as the screens do', () => {
    expect(words.weather.gap('2026-05-02', '2026-05-09')).toBe('No weather from May 2, 2026 to May 9, 2026');
  });

  it('puts nothing around what is put in', () => {
    expect(words.walk.explain('Boot')).toBe('What is Boot?');
  });
});
