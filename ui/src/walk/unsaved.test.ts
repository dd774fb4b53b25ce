import { expect, it } from 'vitest';

import { keepUnsaved, unsavedOf, type UnsavedHead } from './unsaved';

function store() {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
    kept,
  };
}

const head = (id: string, walk: string): UnsavedHead => ({
  kind: 'head',
  id,
  walk,
  stop: 's',
  head: { head: { reading: 'pliable', share: 40 }, flags: [], note: null },
});

it('keeps each walk apart, in the order read', () => {
  const local = store();
  keepUnsaved(local, 'a', [head('1', 'a'), head('2', 'a')]);
  keepUnsaved(local, 'b', [head('3', 'b')]);
  expect(unsavedOf(local, 'a').map((each) => each.id)).toEqual(['1', '2']);
  keepUnsaved(local, 'a', []);
  expect(unsavedOf(local, 'a')).toEqual([]);
  expect(unsavedOf(local, 'b').map((each) => each.id)).toEqual(['3']);
  keepUnsaved(local, 'b', []);
  expect(local.kept.size).toBe(0);
});

it('reads a spoiled store as empty', () => {
  const local = store();
  local.setItem('headwalk.unsaved', '{not json');
  expect(unsavedOf(local, 'a')).toEqual([]);
});
