import { expect, it } from 'vitest';

import { column, draftOf, setFrom, type Draft } from './marks';

const draft: Draft = {
  name: ' Ours ',
  source: 'own counts',
  unit: 'fahrenheit',
  base: '50',
  upper: '100',
  method: 'both_limits',
  columns: [column('medium', { half_bloom: 1600, black_layer: 2700 })],
};

it('gives the set that was typed, marks in the order of growth', () => {
  const set = setFrom(draft);
  expect(set).toEqual({
    name: 'Ours',
    source: 'own counts',
    unit: 'fahrenheit',
    base: 50,
    upper: 100,
    method: 'both_limits',
    tables: [
      {
        maturity: 'medium',
        marks: [
          { mark: 'half_bloom', units: 1600 },
          { mark: 'black_layer', units: 2700 },
        ],
      },
    ],
  });
  expect(setFrom(draftOf(set!))).toEqual(set);
});

it('gives nothing where a number is none', () => {
  expect(setFrom({ ...draft, base: 'ten' })).toBeNull();
  expect(setFrom({ ...draft, upper: '' })).toBeNull();
  const columns = [column('medium', { half_bloom: 1600 })];
  columns[0]!.units.black_layer = 'late';
  expect(setFrom({ ...draft, columns })).toBeNull();
});

it('needs no upper limit for a plain mean', () => {
  expect(setFrom({ ...draft, upper: '', method: 'plain_mean' })?.upper).toBe(100);
});
