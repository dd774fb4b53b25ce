// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface StagesWords {
  readonly tenths: {
    readonly t2: string;
    readonly t3: string;
    readonly t4: string;
    readonly t6: string;
    readonly t7: string;
    readonly t8: string;
    readonly t9: string;
  };
  readonly at: (stage: string) => string;
  readonly inBloom: string;
  readonly ends: (low: number, high: number) => string;
  readonly oneEnd: (value: number) => string;
  readonly headsAt: (many: 'hardly' | 'one' | 'half' | 'all' | 'other', tenths: string, at: string, ends: string) => string;
  readonly grainAt: (many: 'hardly' | 'one' | 'half' | 'all' | 'other', tenths: string, at: string, ends: string) => string;
  readonly placeOf: (kind: 'at' | 'past' | 'between' | 'nearing', stage: string) => string;
  readonly standingSure: (stage: string, chance: number) => string;
  readonly standingLikely: (stage: string, chance: number, other: string, otherChance: number) => string;
  readonly standingSplit: (stage: string, chance: number, other: string, otherChance: number) => string;
  readonly vaguestAt: (at: string, low: number, high: number) => string;
  readonly nothingVague: string;
  readonly bandAt: (level: number, place: string) => string;
  readonly bandOne: (level: number, place: string) => string;
  readonly bandBetween: (level: number, low: string, high: string) => string;
  readonly lineAt: (stage: string, band: string) => string;
  readonly earlier: (count: number) => string;
  readonly lineWithout: string;
  readonly enough: string;
  readonly noHeads: string;
  readonly moreStopsGain: (stops: number, heads: number, minutes: number, width: number) => string;
  readonly moreStopsSome: string;
  readonly moreStopsShort: (stops: number, heads: number, minutes: number, width: number) => string;
  readonly moreStopsNone: string;
}

export const stages = {
  at: ['stage'],
  ends: ['low', 'high'],
  oneEnd: ['value'],
  headsAt: ['many', 'tenths', 'at', 'ends'],
  grainAt: ['many', 'tenths', 'at', 'ends'],
  placeOf: ['kind', 'stage'],
  standingSure: ['stage', 'chance'],
  standingLikely: ['stage', 'chance', 'other', 'otherChance'],
  standingSplit: ['stage', 'chance', 'other', 'otherChance'],
  vaguestAt: ['at', 'low', 'high'],
  bandAt: ['level', 'place'],
  bandOne: ['level', 'place'],
  bandBetween: ['level', 'low', 'high'],
  lineAt: ['stage', 'band'],
  earlier: ['count'],
  moreStopsGain: ['stops', 'heads', 'minutes', 'width'],
  moreStopsShort: ['stops', 'heads', 'minutes', 'width'],
};
