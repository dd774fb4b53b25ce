import { describe, expect, it } from 'vitest';

import { areaFrom } from './area';
import { fitting } from './fitting';

const row = (name: string, hybrid: string | null = null, field: string | null = null) => ({
  name,
  hybrid,
  field,
  farm: null,
});

describe('fitting', () => {
  const rows = [row('North 40', 'Hybrid A', 'Río'), row('Creek bend', 'Hybrid B'), row('North end', null, 'Creek')];

  it('keeps the order, and all rows where nothing is typed', () => {
    expect(fitting(rows, '  ')).toEqual(rows);
  });

  it('wants every word, anywhere, without case or accents', () => {
    expect(fitting(rows, 'creek').map((each) => each.name)).toEqual(['Creek bend', 'North end']);
    expect(fitting(rows, 'NORTH rio').map((each) => each.name)).toEqual(['North 40']);
    expect(fitting(rows, 'hybrid z')).toEqual([]);
  });
});

describe('areaFrom', () => {
  it('takes either decimal mark and refuses what is no size', () => {
    expect(areaFrom('61,5', 'acres')).toEqual({ unit: 'acres', size: 61.5 });
    expect(areaFrom(' ', 'acres')).toBeNull();
    for (const bad of ['0', '-3', 'x', '1e999']) expect(areaFrom(bad, 'hectares')).toBe('bad');
  });
});
