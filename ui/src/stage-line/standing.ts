// What an answer says, before it is put into words: how sure the stage is, and
// which share is known least.

import type { Advice, Answers, Band, MoreStops, Stage, WholeField } from '../contract';
import { STAGES, whereabouts } from './geometry';

/** From this chance on a stage is called without its runner-up. */
export const SURE = 0.9;

export type Standing =
  | { kind: 'sure'; stage: Stage; chance: number }
  | { kind: 'nearing'; stage: Stage; chance: number; next: Stage }
  | { kind: 'split'; stage: Stage; chance: number; other: Stage; otherChance: number };

/** The most probable stage, with the next one where it is not sure. */
export function standing(field: WholeField): Standing {
  const ranked = [...STAGES].sort((a, b) => field.chance[b] - field.chance[a]);
  const stage = ranked[0]!;
  const other = ranked[1]!;
  const chance = field.chance[stage];
  if (chance >= SURE) {
    const next = STAGES[STAGES.indexOf(stage) + 1];
    const where = whereabouts(field.position.mid);
    const near = next !== undefined && where.kind === 'nearing' && where.stage === next;
    return near ? { kind: 'nearing', stage, chance, next } : { kind: 'sure', stage, chance };
  }
  return { kind: 'split', stage, chance, other, otherChance: field.chance[other] };
}

/** A share with its stage. */
export interface ShareOf {
  stage: Stage;
  band: Band;
}

/** The share of heads with the widest band, where that is wide enough to matter. */
export function vaguest(field: WholeField): ShareOf | null {
  let widest: ShareOf | null = null;
  for (const stage of STAGES) {
    const band = field.reached[stage];
    if (widest === null || band.high - band.low > widest.band.high - widest.band.low) widest = { stage, band };
  }
  return widest !== null && widest.band.high - widest.band.low > 0.2 ? widest : null;
}

/**
 * The stages worth a sentence of their own: from the last one that every head
 * has reached to the first that none has.
 */
export function tellingStages(field: WholeField): Stage[] {
  const isAll = (stage: Stage) => field.reached[stage].low > 0.985;
  const isNone = (stage: Stage) => field.reached[stage].high < 0.015;
  const lastAll = STAGES.findLastIndex(isAll);
  const firstNone = STAGES.findIndex(isNone);
  return STAGES.slice(Math.max(0, lastAll), firstNone < 0 ? STAGES.length : firstNone + 1);
}

/** The answer to go by: with history where there is one, else the heads alone. */
export function bestOf(answers: Answers): WholeField | null {
  return answers.with_history ?? answers.alone;
}

/** The cheapest further walking that is expected to do, else the one that helps most. */
export function bestMore(advice: Advice): MoreStops | null {
  return advice.more.find((more) => more.meets_target) ?? advice.more.at(-1) ?? null;
}
