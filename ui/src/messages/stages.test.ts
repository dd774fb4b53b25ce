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
  it('says percent, with both ends', () => {
    const band = { low: 0.48, mid: 0.6, high: 0.71 };
    expect(stages.heads('hard_dough', band)).toBe('60 % of heads have reached hard dough (48 % to 71 %).');
    expect(stages.grain('soft_dough', band)).toBe('60 % of the grain has reached soft dough (48 % to 71 %).');
    spanish();
    expect(stages.heads('hard_dough', band)).toBe('60 % de las panojas llegaron a grano pastoso duro (48 % a 71 %).');
  });

  it('says of bloom that it has begun', () => {
    expect(stages.heads('half_bloom', { low: 0.93, mid: 0.98, high: 1 })).toBe(
      '98 % of heads have started to bloom (93 % to 100 %).',
    );
  });

  it('never calls a guess certain', () => {
    expect(stages.heads('milk', { low: 0.0004, mid: 0.006, high: 0.9996 })).toBe(
      'Under 1 % of heads have reached milk (under 1 % to over 99 %).',
    );
  });
});

describe('the standing', () => {
  it('is as sure as its chance', () => {
    expect(stages.standing({ kind: 'sure', stage: 'milk', chance: 0.97 })).toBe('Milk, 97 % sure.');
    expect(stages.standing({ kind: 'nearing', stage: 'soft_dough', chance: 0.97, next: 'hard_dough' })).toBe(
      'Nearing hard dough (soft dough, 97 % sure).',
    );
    const split = { kind: 'split', stage: 'milk', other: 'soft_dough' } as const;
    expect(stages.standing({ ...split, chance: 0.8, otherChance: 0.19 })).toBe(
      'Likely milk (80 %), else soft dough (19 %).',
    );
    expect(stages.standing({ ...split, chance: 0.5, otherChance: 0.48 })).toBe('Milk (50 %) or soft dough (48 %).');
    spanish();
    expect(stages.standing({ ...split, chance: 0.5, otherChance: 0.48 })).toBe(
      'Grano lechoso (50 %) o grano pastoso (48 %).',
    );
  });
});

describe('the band', () => {
  const near = { kind: 'nearing', stage: 'black_layer' } as const;
  const past = { kind: 'past', stage: 'black_layer' } as const;
  const at = { kind: 'at', stage: 'soft_dough' } as const;

  it('says both ends, and one place where they are the same', () => {
    expect(stages.band(at, near, 0.9)).toBe('90 % sure: from soft dough to just short of black layer.');
    expect(stages.band(near, near, 0.9)).toBe('90 % sure: just short of black layer.');
    spanish();
    expect(stages.band(at, at, 0.8)).toBe('80 % de seguridad: en grano pastoso.');
  });

  it('names a stage once that it lies around', () => {
    expect(stages.band(near, past, 0.9)).toBe('90 % sure: from just short of black layer to just past it.');
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
    expect(stages.moreStops(more)).toBe('1 more stop of 5 (about 8 min) would narrow the range to 0.4 stages.');
    spanish();
    expect(stages.moreStops({ ...more, stops: 2 })).toContain(
      '2 paradas más de 5 (unos 8 min) estrecharían el rango a 0.4 etapas',
    );
  });
});
