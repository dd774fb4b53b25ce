import type { Stage } from '../contract';
import { words } from './words';

export const plantings = {
  get due() {
    return {
      ...words.plantings.dueBecause,
      stage_near: (stage: Stage): string => words.plantings.dueForStage(words.common.stage[stage]),
    };
  },
  contradiction(chance: number): string {
    const { oddsLeast, odds, contradicts } = words.plantings;
    return contradicts(chance < 0.001 ? oddsLeast : odds(Math.round(1 / chance)));
  },
  walkOn: (date: string, scout: string): string => (scout === '' ? date : words.plantings.walkOnBy(date, scout)),
  get how(): string[] {
    return Object.values(words.plantings.howParts);
  },
};
