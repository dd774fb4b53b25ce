import { expect, it } from 'vitest';

import type { FortnightRow, MoneyWindow } from '../contract';
import { nextOfEach, soonestFirst } from './soonest';

const window = (earliest: string, standing: MoneyWindow['standing'], kind: MoneyWindow['kind']): MoneyWindow => ({
  kind,
  span: { earliest, from: earliest, to: earliest, latest: earliest },
  standing,
  source: 'last_irrigation_practice',
  caution: 'irrigation_local_rules',
});
const row = (name: string, windows: MoneyWindow[]): FortnightRow => ({ planting: name, name, windows, why: null });
const freeze = (chance: number): MoneyWindow['kind'] => ({
  what: 'freeze',
  chances: [
    {
      at_f: 28,
      before_black_layer: chance,
      comes: 1,
      was_on: null,
      before_soft_dough: 0,
      at_soft_dough: 0,
      at_hard_dough: 0,
    },
  ],
  meets: null,
  loss_low: null,
  loss_high: null,
});

it('puts what may be open now first, then the soonest', () => {
  const rows = [
    row('a', [window('2026-09-25', 'ahead', { what: 'silage' })]),
    row('b', [
      window('2026-09-20', 'ahead', { what: 'last_irrigation' }),
      window('2026-09-10', 'may_be_open', { what: 'silage' }),
    ]),
  ];
  expect(soonestFirst(rows).map((each) => `${each.row.name} ${each.window.kind.what}`)).toEqual([
    'b silage',
    'b last_irrigation',
    'a silage',
  ]);
});

it('leaves out a freeze that hardly ever comes in time', () => {
  const rows = [
    row('a', [window('2026-09-10', 'may_be_open', freeze(0.02)), window('2026-09-10', 'may_be_open', freeze(0.3))]),
  ];
  expect(soonestFirst(rows)).toHaveLength(1);
});

it('gives each planting the window that stands first, never a harvest aid, and none where there is none', () => {
  const next = nextOfEach([
    row('a', [
      window('2026-09-25', 'ahead', { what: 'silage' }),
      window('2026-09-20', 'ahead', { what: 'last_irrigation' }),
    ]),
    row('b', []),
    row('c', [window('2026-09-20', 'may_be_open', { what: 'harvest_aid' })]),
  ]);
  expect([...next].map(([planting, { kind }]) => `${planting} ${kind.what}`)).toEqual(['a last_irrigation']);
});
