// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface PlantingsWords {
  readonly title: string;
  readonly add: string;
  readonly search: string;
  readonly searchHint: string;
  readonly found: (count: number) => string;
  readonly noneFound: string;
  readonly emptyTitle: string;
  readonly emptyText: string;
  readonly importInstead: string;
  readonly walked: (days: number) => string;
  readonly dueBecause: {
    readonly walk_open: string;
    readonly overdue: string;
    readonly never_walked: string;
    readonly fresh: string;
    readonly ripe: string;
  };
  readonly dueForStage: (stage: string) => string;
  readonly beingWorkedOut: string;
  readonly workingOut: (left: number) => string;
  readonly purpose: {
    readonly grain: string;
    readonly silage: string;
    readonly seed: string;
  };
  readonly planted: (when: string) => string;
  readonly acres: (size: number) => string;
  readonly hectares: (size: number) => string;
  readonly edit: string;
  readonly remove: string;
  readonly removed: (name: string) => string;
  readonly restored: (name: string) => string;
  readonly startWalk: string;
  readonly carryOn: string;
  readonly notWalked: string;
  readonly seasonOver: string;
  readonly oneHead: string;
  readonly whichAnswer: string;
  readonly withHistory: string;
  readonly alone: string;
  readonly contradicts: (odds: string) => string;
  readonly oddsLeast: string;
  readonly odds: (fields: number) => string;
  readonly sharesTitle: string;
  readonly headsTab: string;
  readonly grainTab: string;
  readonly headsNote: string;
  readonly grainNote: string;
  readonly atLevel: (level: number) => string;
  readonly from: (heads: number, stops: number) => string;
  readonly tableTitle: string;
  readonly tableCaption: string;
  readonly tableStage: string;
  readonly tableChance: string;
  readonly howTitle: string;
  readonly howParts: {
    readonly heads: string;
    readonly stops: string;
    readonly earlier: string;
    readonly sources: string;
  };
  readonly goOnTitle: string;
  readonly walksTitle: string;
  readonly walkOnBy: (date: string, scout: string) => string;
  readonly noAnswer: string;
  readonly open: string;
  readonly openWalk: string;
  readonly removeWalk: string;
  readonly removeWalkSure: (heads: number) => string;
  readonly removeWalkYes: string;
  readonly keepWalk: string;
  readonly walkRemoved: string;
  readonly newTitle: string;
  readonly editTitle: string;
  readonly name: string;
  readonly nameHint: string;
  readonly nameNeeded: string;
  readonly nameTaken: string;
  readonly dateUsed: string;
  readonly clearDate: string;
  readonly area: (unit: string) => string;
  readonly unitAcres: string;
  readonly unitHectares: string;
  readonly areaBad: string;
  readonly optional: string;
  readonly save: string;
  readonly saveNew: string;
  readonly known: (what: string) => string;
}

export const plantings = {
  found: ['count'],
  walked: ['days'],
  dueForStage: ['stage'],
  workingOut: ['left'],
  planted: ['when'],
  acres: ['size'],
  hectares: ['size'],
  removed: ['name'],
  restored: ['name'],
  contradicts: ['odds'],
  odds: ['fields'],
  atLevel: ['level'],
  from: ['heads', 'stops'],
  walkOnBy: ['date', 'scout'],
  removeWalkSure: ['heads'],
  area: ['unit'],
  known: ['what'],
};
