import { afterEach, describe, expect, it } from 'vitest';

import { spoken } from './language.svelte';
import './spoken-in-tests';
import { stages } from './stages';

afterEach(() => {
  spoken.language = 'en';
});

const spanish = () => {
  spoken.language = 'es';
};

describe('shares of heads', () => {
  it('says tenths, with both ends', () => {
    expect(stages.heads('hard_dough', { low: 0.48, mid: 0.6, high: 0.71 })).toBe(
      'About six heads in ten are at hard dough (between 48 and 71 in a hundred).',
    );
    spanish();
    expect(stages.heads('hard_dough', { low: 0.48, mid: 0.6, high: 0.71 })).toBe(
      'Cerca de seis de cada diez panojas están en masa dura (entre 48 y 71 de cada cien).',
    );
  });

  it('keeps the verb with its number', () => {
    expect(stages.heads('milk', { low: 0.02, mid: 0.1, high: 0.2 })).toContain('About one head in ten is at milk');
    spanish();
    expect(stages.heads('milk', { low: 0.02, mid: 0.1, high: 0.2 })).toContain(
      'una de cada diez panojas está en grano lechoso',
    );
  });

  it('does not call next to nothing a tenth, nor next to all ten', () => {
    expect(stages.heads('black_layer', { low: 0, mid: 0.01, high: 0.08 })).toBe(
      'Hardly any heads are at black layer (between 0 and 8 in a hundred).',
    );
    expect(stages.heads('half_bloom', { low: 0.93, mid: 0.99, high: 1 })).toBe(
      'Nearly all heads are in bloom (between 93 and 100 in a hundred).',
    );
    expect(stages.heads('milk', { low: 0.9, mid: 0.96, high: 0.99 })).toContain('About nine heads in ten');
  });

  it('never calls a guess certain', () => {
    expect(stages.heads('milk', { low: 0.0004, mid: 0.001, high: 0.9996 })).toContain('between 1 and 99');
  });

  it('says half as half', () => {
    expect(stages.grain('soft_dough', { low: 0.4, mid: 0.52, high: 0.66 })).toContain('About half of the grain is');
  });
});

describe('the standing', () => {
  it('is as sure as its chance', () => {
    expect(stages.standing({ kind: 'sure', stage: 'milk', chance: 0.97 })).toBe('At milk (97 in a hundred).');
    const split = { kind: 'split', stage: 'milk', other: 'soft_dough' } as const;
    expect(stages.standing({ ...split, chance: 0.8, otherChance: 0.19 })).toBe(
      'Likely milk (80 in a hundred), else soft dough (19).',
    );
    expect(stages.standing({ ...split, chance: 0.5, otherChance: 0.48 })).toBe(
      'Milk or soft dough (50 and 48 in a hundred).',
    );
    spanish();
    expect(stages.standing({ ...split, chance: 0.5, otherChance: 0.48 })).toBe(
      'Grano lechoso o masa blanda (50 y 48 de cada cien).',
    );
  });
});

describe('the band', () => {
  it('says both ends, and one place where they are the same', () => {
    const near = { kind: 'nearing', stage: 'black_layer' } as const;
    const at = { kind: 'at', stage: 'soft_dough' } as const;
    expect(stages.band(at, near, 0.9)).toBe(
      'With 90 chances in a hundred the planting is between soft dough and nearing black layer.',
    );
    expect(stages.band(near, near, 0.9)).toBe('With 90 chances in a hundred the planting is nearing black layer.');
    spanish();
    expect(stages.band(at, at, 0.8)).toBe('Con 80 probabilidades de cada cien la siembra está en masa blanda.');
  });
});

describe('advice', () => {
  const more = {
    stops: 1,
    heads_per_stop: 5,
    position_width: 0.437,
    stage_chance: 0.93,
    minutes: 7.75,
    meets_target: true,
  };

  it('says what one more stop buys and what it costs', () => {
    expect(stages.moreStops(more)).toBe('1 more stop of 5 (about 8 min) would narrow the band to 0.4 stages.');
    spanish();
    expect(stages.moreStops({ ...more, stops: 2 })).toContain(
      '2 paradas más de 5 (unos 8 min) estrecharían la banda a 0.4 etapas',
    );
  });
});
