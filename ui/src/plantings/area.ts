// An area between the field it is typed into and the contract.

import type { Area } from '../contract';

/** What was typed as an area: none when empty, `bad` when it is no size. */
export function areaFrom(typed: string, unit: Area['unit']): Area | null | 'bad' {
  const text = typed.trim().replace(',', '.');
  if (text === '') return null;
  const size = Number(text);
  return Number.isFinite(size) && size > 0 ? { unit, size } : 'bad';
}

/** An area as it is typed. */
export function areaText(area: Area | null): string {
  return area === null ? '' : String(area.size);
}
