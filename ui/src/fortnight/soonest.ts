// The windows of all plantings in one list.

import type { FortnightRow, MoneyWindow } from '../contract';

export interface OpenWindow {
  row: FortnightRow;
  window: MoneyWindow;
}

/** Less likely than this, a freeze of 28 F before black layer is left to the planting's own page. */
const WORTH_SAYING = 0.05;

function worthSaying({ kind }: MoneyWindow): boolean {
  if (kind.what !== 'freeze') return true;
  return kind.chances.some((chance) => chance.at_f <= 28 && chance.before_black_layer >= WORTH_SAYING);
}

/** What may be open now first, then by the day it may open at the earliest; by name where equal. */
export function soonestFirst(rows: readonly FortnightRow[]): OpenWindow[] {
  const key = ({ row, window }: OpenWindow) =>
    `${window.standing === 'may_be_open' ? 0 : 1}${window.span?.earliest ?? '9999'}${row.name}`;
  return rows
    .flatMap((row) => row.windows.filter(worthSaying).map((window) => ({ row, window })))
    .sort((one, other) => (key(one) < key(other) ? -1 : key(one) > key(other) ? 1 : 0));
}

/**
 * Of each planting the window that stands first, by the planting's id. A harvest
 * aid is left to the screens that have room for its caution.
 */
export function nextOfEach(rows: readonly FortnightRow[]): Map<string, MoneyWindow> {
  const next = new Map<string, MoneyWindow>();
  for (const { row, window } of soonestFirst(rows)) {
    if (window.kind.what === 'harvest_aid') continue;
    if (!next.has(row.planting)) next.set(row.planting, window);
  }
  return next;
}
