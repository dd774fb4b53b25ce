// Sentences about stages, bands and shares. Every number that is a guess is
// said with its two ends.

import type { Band, MoreStops, Stage } from '../contract';
import type { Whereabouts } from '../stage-line/geometry';
import type { Standing } from '../stage-line/standing';
import { words } from './words';

/** What heads at a stage or past it have done. */
function reached(stage: Stage): string {
  return stage === 'half_bloom' ? words.stages.reachedBloom : words.stages.reached(words.common.stage[stage]);
}

function place(of: Whereabouts): string {
  return words.stages.placeOf(of.kind, words.common.stage[of.kind === 'between' ? of.to : of.stage]);
}

/** Below this chance the likelier stage is only one of two. */
const LIKELY = 0.65;

function standing(now: Standing): string {
  const { standingLikely, standingNearing, standingSplit, standingSure } = words.stages;
  const stage = words.common.stage[now.stage];
  if (now.kind === 'sure') return standingSure(stage, now.chance);
  if (now.kind === 'nearing') return standingNearing(words.common.stage[now.next], stage, now.chance);
  const other = words.common.stage[now.other];
  return now.chance >= LIKELY
    ? standingLikely(stage, now.chance, other, now.otherChance)
    : standingSplit(stage, now.chance, other, now.otherChance);
}

function band(low: Whereabouts, high: Whereabouts, level: number): string {
  const { bandAround, bandAt, bandBetween, bandOne } = words.stages;
  if (low.kind === 'nearing' && high.kind === 'past' && low.stage === high.stage)
    return bandAround(level, words.common.stage[low.stage]);
  if (place(low) !== place(high)) return bandBetween(level, place(low), place(high));
  return (low.kind === 'at' ? bandAt : bandOne)(level, place(low));
}

export const stages = {
  reached,
  heads: (stage: Stage, { mid, low, high }: Band): string => words.stages.headsAt(mid, low, high, reached(stage)),
  grain: (stage: Stage, { mid, low, high }: Band): string =>
    words.stages.grainAt(mid, low, high, words.common.stage[stage]),
  place,
  standing,
  vaguest: (stage: Stage, { low, high }: Band): string => words.stages.vaguestAt(low, high, reached(stage)),
  band,
  lineWith: (stage: Stage, low: Whereabouts, high: Whereabouts, level: number): string =>
    words.stages.lineAt(words.common.stage[stage], band(low, high, level)),
  moreStops(more: MoreStops | null): string {
    if (more === null) return words.stages.moreStopsSome;
    return words.stages.moreStopsGain(more.stops, more.heads_per_stop, more.minutes, more.position_width);
  },
  outOfReach(more: MoreStops | null): string {
    if (more === null) return words.stages.moreStopsNone;
    return words.stages.moreStopsShort(more.stops, more.heads_per_stop, more.minutes, more.position_width);
  },
};
