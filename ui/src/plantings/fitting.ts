// Which plantings fit what was typed into the search field.

import type { PlantingRow } from '../contract';

type Searched = Pick<PlantingRow, 'name' | 'hybrid' | 'field' | 'farm'>;

/** Case and accents do not matter to somebody who types with one thumb. */
function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase();
}

/** The rows in which every word typed occurs somewhere, in their order. */
export function fitting<T extends Searched>(rows: readonly T[], typed: string): T[] {
  const words = plain(typed)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return [...rows];
  return rows.filter((row) => {
    const text = plain([row.name, row.hybrid, row.field, row.farm].filter((part) => part !== null).join(' '));
    return words.every((word) => text.includes(word));
  });
}
