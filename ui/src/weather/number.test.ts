import { expect, it } from 'vitest';

import { numberFrom } from './number';

it('takes numbers as people type them, and nothing else', () => {
  expect(numberFrom(' 97 ')).toBe(97);
  expect(numberFrom('-3,5')).toBe(-3.5);
  expect(numberFrom('0')).toBe(0);
  for (const not of ['', ' ', 'hot', '9 7', '1e3', '--4', '.']) expect(numberFrom(not)).toBeNull();
});
