// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface StagesWords {
  readonly headsAt: (mid: number, low: number, high: number, reached: string) => string;
  readonly grainAt: (mid: number, low: number, high: number, stage: string) => string;
  readonly placeOf: (kind: 'at' | 'past' | 'between' | 'nearing', stage: string) => string;
  readonly standingNearing: (next: string, stage: string, chance: number) => string;
  readonly standingSure: (stage: string, chance: number) => string;
  readonly standingLikely: (stage: string, chance: number, other: string, otherChance: number) => string;
  readonly standingSplit: (stage: string, chance: number, other: string, otherChance: number) => string;
  readonly vaguestAt: (low: number, high: number, reached: string) => string;
  readonly nothingVague: string;
  readonly bandAt: (level: number, place: string) => string;
  readonly bandOne: (level: number, place: string) => string;
  readonly bandBetween: (level: number, low: string, high: string) => string;
  readonly bandAround: (level: number, stage: string) => string;
  readonly lineAt: (stage: string, band: string) => string;
  readonly earlier: (count: number) => string;
  readonly lineWithout: string;
  readonly reached: (stage: string) => string;
  readonly reachedBloom: string;
  readonly enough: string;
  readonly noHeads: string;
  readonly moreStopsGain: (stops: number, heads: number, minutes: number, width: number) => string;
  readonly moreStopsSome: string;
  readonly moreStopsShort: (stops: number, heads: number, minutes: number, width: number) => string;
  readonly moreStopsNone: string;
}

export const stages = {
  headsAt: ['mid', 'low', 'high', 'reached'],
  grainAt: ['mid', 'low', 'high', 'stage'],
  placeOf: ['kind', 'stage'],
  standingNearing: ['next', 'stage', 'chance'],
  standingSure: ['stage', 'chance'],
  standingLikely: ['stage', 'chance', 'other', 'otherChance'],
  standingSplit: ['stage', 'chance', 'other', 'otherChance'],
  vaguestAt: ['low', 'high', 'reached'],
  bandAt: ['level', 'place'],
  bandOne: ['level', 'place'],
  bandBetween: ['level', 'low', 'high'],
  bandAround: ['level', 'stage'],
  lineAt: ['stage', 'band'],
  earlier: ['count'],
  reached: ['stage'],
  moreStopsGain: ['stops', 'heads', 'minutes', 'width'],
  moreStopsShort: ['stops', 'heads', 'minutes', 'width'],
};
