import { describe, expect, it } from 'vitest';

import { HEAT, heatAt, layLabels, percentAt, percentOfStage, STAGES, whereabouts } from './geometry';

describe('heatAt', () => {
  it('puts the published numbers on their marks', () => {
    expect(heatAt(5)).toBe(-250);
    expect(heatAt(6)).toBe(0);
    expect(heatAt(7)).toBe(297);
    expect(heatAt(8)).toBe(747);
    expect(heatAt(9)).toBe(1107);
  });

  it('is linear in heat between them', () => {
    expect(heatAt(7.5)).toBeCloseTo((297 + 747) / 2, 9);
    expect(heatAt(5.6)).toBeCloseTo(-100, 9);
  });

  it('holds what lies beyond to the ends', () => {
    expect(heatAt(4.2)).toBe(-250);
    expect(heatAt(9.4)).toBe(1107);
  });
});

describe('percentAt', () => {
  it('runs from boot to black layer', () => {
    expect(percentAt(5)).toBe(0);
    expect(percentAt(9)).toBe(100);
    expect(percentOfStage('hard_dough')).toBeCloseTo((997 / 1357) * 100, 9);
  });

  it('never runs backward', () => {
    const places = Array.from({ length: 101 }, (_, at) => percentAt(4.5 + at * 0.05));
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });
});

describe('whereabouts', () => {
  it('says where a position is among the marks', () => {
    expect(whereabouts(7)).toEqual({ kind: 'at', stage: 'soft_dough' });
    expect(whereabouts(7.3)).toEqual({ kind: 'past', stage: 'soft_dough' });
    expect(whereabouts(7.5)).toEqual({ kind: 'between', from: 'soft_dough', to: 'hard_dough' });
    expect(whereabouts(7.9)).toEqual({ kind: 'nearing', stage: 'hard_dough' });
    expect(whereabouts(9.5)).toEqual({ kind: 'at', stage: 'black_layer' });
    expect(whereabouts(4)).toEqual({ kind: 'at', stage: 'boot' });
  });

  it('finds the marks that have no number of their own', () => {
    expect(whereabouts(6 + HEAT.milk / HEAT.soft_dough)).toEqual({ kind: 'at', stage: 'milk' });
  });
});

describe('layLabels', () => {
  const words = STAGES.map((stage) => ({ stage, width: 70 }));

  it.each([300, 366, 820])('lets no word cover another or leave a line of %i', (line) => {
    const labels = layLabels(words, line, 6);
    for (const [at, label] of labels.entries()) {
      expect(label.left).toBeGreaterThanOrEqual(0);
      expect(label.left + 70).toBeLessThanOrEqual(line);
      for (const other of labels.slice(at + 1)) {
        if (other.row === label.row) expect(Math.abs(other.left - label.left)).toBeGreaterThanOrEqual(76);
      }
    }
  });

  it('needs a single row where there is room', () => {
    const labels = layLabels(
      STAGES.map((stage) => ({ stage, width: 20 })),
      800,
      4,
    );
    expect(labels.every((label) => label.row === 0)).toBe(true);
  });
});
