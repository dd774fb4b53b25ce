// Where things stand on the stage line: from the published 0-9 scale to heat
// after bloom, from heat to a place on the line, and how its words are kept apart.

import type { Stage } from '../contract';

/** The stages in the order of growth. */
export const STAGES: readonly Stage[] = [
  'boot',
  'heading',
  'half_bloom',
  'milk',
  'soft_dough',
  'hard_dough',
  'black_layer',
];

/**
 * Heat units (base 50 F, cap 100 F) from half bloom to each mark: soft dough on
 * after a university table (K-State eUpdate 661, 2025), boot from the same
 * table, heading and milk our own reckoning between their neighbours.
 */
export const HEAT: Readonly<Record<Stage, number>> = {
  boot: -250,
  heading: -100,
  half_bloom: 0,
  milk: 130,
  soft_dough: 297,
  hard_dough: 747,
  black_layer: 1107,
};

const FIRST = HEAT.boot;
const LAST = HEAT.black_layer;

// The published scale numbers five of the seven marks; between them it is
// linear in heat.
const NUMBERED: readonly (readonly [number, number])[] = [
  [5, HEAT.boot],
  [6, HEAT.half_bloom],
  [7, HEAT.soft_dough],
  [8, HEAT.hard_dough],
  [9, HEAT.black_layer],
];

/** Heat from half bloom of a position on the 0-9 scale, held to the line's ends. */
export function heatAt(position: number): number {
  for (let at = 1; at < NUMBERED.length; at += 1) {
    const [from, fromHeat] = NUMBERED[at - 1]!;
    const [to, toHeat] = NUMBERED[at]!;
    if (position <= to) {
      const part = Math.max(0, (position - from) / (to - from));
      return fromHeat + part * (toHeat - fromHeat);
    }
  }
  return LAST;
}

/** Place of a heat on the line, percent of its length from boot. */
export function percentOfHeat(heat: number): number {
  const part = (heat - FIRST) / (LAST - FIRST);
  return 100 * Math.min(1, Math.max(0, part));
}

/** Place of a position on the line, percent of its length from boot. */
export function percentAt(position: number): number {
  return percentOfHeat(heatAt(position));
}

/** Place of a stage's mark on the line, percent of its length from boot. */
export function percentOfStage(stage: Stage): number {
  return percentOfHeat(HEAT[stage]);
}

/** Where a position is among the marks, for a sentence. */
export type Whereabouts =
  | { kind: 'at'; stage: Stage }
  | { kind: 'past'; stage: Stage }
  | { kind: 'between'; from: Stage; to: Stage }
  | { kind: 'nearing'; stage: Stage };

/** Puts a position into words' shape: at a mark, just past it, midway, nearing the next. */
export function whereabouts(position: number): Whereabouts {
  const heat = heatAt(position);
  let from: Stage = 'boot';
  let to: Stage | undefined;
  for (const stage of STAGES) {
    if (HEAT[stage] <= heat) from = stage;
    else {
      to = stage;
      break;
    }
  }
  if (to === undefined) return { kind: 'at', stage: from };
  const part = (heat - HEAT[from]) / (HEAT[to] - HEAT[from]);
  if (part < 0.12) return { kind: 'at', stage: from };
  if (part < 0.4) return { kind: 'past', stage: from };
  if (part < 0.65) return { kind: 'between', from, to };
  return { kind: 'nearing', stage: to };
}

/** A word under the line. */
export interface Label {
  stage: Stage;
  /** Its left edge, in the unit of the widths given. */
  left: number;
  /** Row below the line, 0 next to it. */
  row: number;
}

/**
 * Lays the words under the line so that none covers another: each is centred on
 * its mark, held inside the line, and goes to the first row with room.
 */
export function layLabels(words: readonly { stage: Stage; width: number }[], line: number, gap: number): Label[] {
  const ends: number[] = [];
  return words.map(({ stage, width }) => {
    const centre = (percentOfStage(stage) / 100) * line;
    const left = Math.max(0, Math.min(centre - width / 2, line - width));
    let row = ends.findIndex((end) => end + gap <= left);
    if (row < 0) row = ends.length;
    ends[row] = left + width;
    return { stage, left, row };
  });
}
