// Series that an exchange left as they are, as the screens list them.

import type { CrewState } from '../contract';
import { say } from '../messages';

type Series = CrewState['left_alone'][number];

export interface LeftOut {
  /** Whose entries they are. */
  whose: string;
  why: string;
  /** What to do about it. */
  advice: string;
}

/** One line for everything that is one person's and left out for one reason; a device may have several series. */
export function leftOut(rows: readonly Series[]): LeftOut[] {
  const lines = new Map<string, LeftOut>();
  for (const { who, own, why } of rows) {
    const whose = say.crew.leftOf(who ?? null, own);
    lines.set(`${why} ${whose}`, {
      whose,
      why: say.crew.leftWhy[why],
      advice: own ? say.crew.leftDoOwn : say.crew.leftDo[why],
    });
  }
  return [...lines.values()].sort((a, b) => a.whose.localeCompare(b.whose));
}
