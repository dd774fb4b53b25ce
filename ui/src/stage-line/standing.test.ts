import { describe, expect, it } from 'vitest';

import type { Advice, Band, PerStage, Stage, WholeField } from '../contract';
import { STAGES } from './geometry';
import { bestMore, standing, tellingStages, vaguest } from './standing';

function perStage<T>(make: (stage: Stage) => T): PerStage<T> {
  return Object.fromEntries(STAGES.map((stage) => [stage, make(stage)])) as unknown as PerStage<T>;
}

function field(chance: Partial<Record<Stage, number>>, reached: Partial<Record<Stage, Band>> = {}): WholeField {
  const none = { low: 0, mid: 0, high: 0 };
  return {
    heads: 25,
    stops: 5,
    level: 0.9,
    stage: 'soft_dough',
    position: { low: 7, mid: 7.2, high: 7.4 },
    reached: perStage((stage) => reached[stage] ?? none),
    grain: perStage((stage) => reached[stage] ?? none),
    chance: perStage((stage) => chance[stage] ?? 0),
  };
}

describe('standing', () => {
  it('names one stage from nine chances in ten on', () => {
    expect(standing(field({ soft_dough: 0.9, milk: 0.1 }))).toEqual({ kind: 'sure', stage: 'soft_dough', chance: 0.9 });
  });

  it('names the next one where the field is close to it', () => {
    const close = { ...field({ soft_dough: 0.97 }), position: { low: 7.6, mid: 7.8, high: 7.9 } };
    expect(standing(close)).toEqual({ kind: 'nearing', stage: 'soft_dough', chance: 0.97, next: 'hard_dough' });
  });

  it('names the runner-up below that', () => {
    expect(standing(field({ soft_dough: 0.35, hard_dough: 0.65 }))).toEqual({
      kind: 'split',
      stage: 'hard_dough',
      chance: 0.65,
      other: 'soft_dough',
      otherChance: 0.35,
    });
  });
});

describe('vaguest', () => {
  it('finds the widest share, and none where all are known well', () => {
    const wide = { low: 0.2, mid: 0.4, high: 0.7 };
    expect(vaguest(field({}, { hard_dough: wide, milk: { low: 0.9, mid: 0.95, high: 1 } }))).toEqual({
      stage: 'hard_dough',
      band: wide,
    });
    expect(vaguest(field({}, { hard_dough: { low: 0.5, mid: 0.55, high: 0.6 } }))).toBeNull();
  });
});

describe('tellingStages', () => {
  it('runs from the last that all have reached to the first that none has', () => {
    const all = { low: 1, mid: 1, high: 1 };
    const some = { low: 0.3, mid: 0.5, high: 0.7 };
    expect(tellingStages(field({}, { boot: all, heading: all, half_bloom: all, milk: all, soft_dough: some }))).toEqual(
      ['milk', 'soft_dough', 'hard_dough'],
    );
  });
});

describe('bestMore', () => {
  const option = (stops: number, meets_target: boolean) => ({
    stops,
    heads_per_stop: 5,
    position_width: 1 / stops,
    stage_chance: 0.8,
    minutes: stops * 8,
    meets_target,
  });
  const advice = (more: Advice['more']): Advice => ({
    verdict: 'more_stops',
    position_width: 1,
    stage_chance: 0.6,
    more,
  });

  it('takes the cheapest that does, else the most', () => {
    expect(bestMore(advice([option(1, false), option(2, true), option(4, true)]))?.stops).toBe(2);
    expect(bestMore(advice([option(1, false), option(2, false)]))?.stops).toBe(2);
    expect(bestMore(advice([]))).toBeNull();
  });
});
