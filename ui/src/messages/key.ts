import type { Reading } from '../contract';
import { words } from './words';

/** What the key says of one reading. */
export interface KeyEntry {
  /** What is seen or felt. */
  feel: string;
  /** What it is taken for by mistake. */
  mistaken: string;
  /** What to look at next. */
  next: string;
}

export const key = {
  get entries(): Record<Reading, KeyEntry> {
    const { entriesFeel, entriesMistaken, entriesNext } = words.key;
    const entry = (of: Reading) => ({ feel: entriesFeel[of], mistaken: entriesMistaken[of], next: entriesNext[of] });
    return {
      boot: entry('boot'),
      emerging: entry('emerging'),
      bloom: entry('bloom'),
      liquid: entry('liquid'),
      pliable: entry('pliable'),
      dented: entry('dented'),
      dark_spot: entry('dark_spot'),
    };
  },
};
