// Sentences about stages, bands and shares. Every number that is a guess is
// said with its two ends.

import type { Band, MoreStops, Stage } from '../contract';
import type { Whereabouts } from '../stage-line/geometry';
import type { Standing } from '../stage-line/standing';
import { hundredths } from './format';
import { words } from './words';

/** How a share is said: in tenths, or as next to none, half or all. */
function tenths(band: Band): { many: 'hardly' | 'one' | 'half' | 'all' | 'other'; tenths: string } {
  if (band.mid < 0.03) return { many: 'hardly', tenths: '' };
  if (band.mid > 0.97) return { many: 'all', tenths: '' };
  const tenth = Math.min(9, Math.max(1, Math.round(band.mid * 10)));
  if (tenth === 1) return { many: 'one', tenths: '' };
  if (tenth === 5) return { many: 'half', tenths: '' };
  return { many: 'other', tenths: words.stages.tenths[`t${tenth as 2 | 3 | 4 | 6 | 7 | 8 | 9}`] };
}

function at(stage: Stage): string {
  return stage === 'half_bloom' ? words.stages.inBloom : words.stages.at(words.common.stage[stage]);
}

function ends({ low, high }: Band): string {
  return hundredths(low) === hundredths(high) ? words.stages.oneEnd(low) : words.stages.ends(low, high);
}

function place(of: Whereabouts): string {
  return words.stages.placeOf(of.kind, words.common.stage[of.kind === 'between' ? of.to : of.stage]);
}

/** Below this chance the likelier stage is only one of two. */
const LIKELY = 0.65;

function standing(now: Standing): string {
  const { standingSure, standingLikely, standingSplit } = words.stages;
  const stage = words.common.stage[now.stage];
  if (now.kind === 'sure') return standingSure(stage, now.chance);
  const other = words.common.stage[now.other];
  return now.chance >= LIKELY
    ? standingLikely(stage, now.chance, other, now.otherChance)
    : standingSplit(stage, now.chance, other, now.otherChance);
}

function band(low: Whereabouts, high: Whereabouts, level: number): string {
  const { bandAt, bandOne, bandBetween } = words.stages;
  if (place(low) !== place(high)) return bandBetween(level, place(low), place(high));
  return (low.kind === 'at' ? bandAt : bandOne)(level, place(low));
}

export const stages = {
  at,
  heads(stage: Stage, band: Band): string {
    const { many, tenths: tenth } = tenths(band);
    return words.stages.headsAt(many, tenth, at(stage), ends(band));
  },
  grain(stage: Stage, band: Band): string {
    const { many, tenths: tenth } = tenths(band);
    return words.stages.grainAt(many, tenth, at(stage), ends(band));
  },
  place,
  standing,
  vaguest: (stage: Stage, { low, high }: Band): string => words.stages.vaguestAt(at(stage), low, high),
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
