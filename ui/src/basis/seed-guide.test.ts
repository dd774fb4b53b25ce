import { expect, it } from 'vitest';

import { classOfDays } from './seed-guide';

it('knows the classes of the model', () => {
  expect(['55', '60', '66', '70', '80'].map(classOfDays)).toEqual([
    'early',
    'medium_early',
    'medium',
    'medium_late',
    'late',
  ]);
});

it('waits for a number of days that can be', () => {
  for (const not of ['', '6', '6x', '12', '300']) expect(classOfDays(not)).toBeNull();
});
