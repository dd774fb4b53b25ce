// Marks of heat tables in the order of growth, and a set as the form holds it.

import type { HeatSetRow, Mark, Method, NewHeatSet, TempUnit } from '../contract';
import { numberFrom } from '../weather/number';

export const MARKS: readonly Mark[] = [
  'emergence',
  'three_leaf',
  'five_leaf',
  'growing_point',
  'flag_leaf',
  'boot',
  'half_bloom',
  'soft_dough',
  'hard_dough',
  'black_layer',
];

/** A column of the form: numbers as they are typed. */
export interface Column {
  maturity: string;
  units: Record<Mark, string>;
}

/** A set as it is typed. */
export interface Draft {
  name: string;
  source: string;
  unit: TempUnit;
  base: string;
  upper: string;
  method: Method;
  columns: Column[];
}

const shown = (value: number) => String(Math.round(value * 10) / 10);

/** A column with the marks given. */
export function column(maturity = '', given: Partial<Record<Mark, number>> = {}): Column {
  const units = Object.fromEntries(
    MARKS.map((mark) => {
      const value = given[mark];
      return [mark, value === undefined ? '' : shown(value)];
    }),
  ) as Record<Mark, string>;
  return { maturity, units };
}

/** A set's figures in the form. */
export function draftOf(set: HeatSetRow['set']): Draft {
  return {
    name: set.name,
    source: set.source,
    unit: set.unit,
    base: shown(set.base),
    upper: shown(set.upper),
    method: set.method,
    columns: set.tables.map((table) =>
      column(table.maturity, Object.fromEntries(table.marks.map((entry) => [entry.mark, entry.units]))),
    ),
  };
}

/** The set that was typed; null where something that must be a number is none. */
export function setFrom(draft: Draft): NewHeatSet | null {
  const base = numberFrom(draft.base);
  // A plain mean has no upper limit; the base and something above it stand in.
  const upper = draft.method === 'plain_mean' && draft.upper.trim() === '' ? (base ?? 0) + 50 : numberFrom(draft.upper);
  if (base === null || upper === null) return null;
  const tables = [];
  for (const each of draft.columns) {
    const marks = [];
    for (const mark of MARKS) {
      const text = each.units[mark];
      if (text.trim() === '') continue;
      const units = numberFrom(text);
      if (units === null) return null;
      marks.push({ mark, units });
    }
    tables.push({ maturity: each.maturity.trim(), marks });
  }
  return {
    name: draft.name.trim(),
    source: draft.source.trim(),
    unit: draft.unit,
    base,
    upper,
    method: draft.method,
    tables,
  };
}
