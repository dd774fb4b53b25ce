// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface PastWords {
  readonly open: string;
  readonly title: string;
  readonly of: (name: string) => string;
  readonly acts: {
    readonly planting_added: string;
    readonly planting_edited: string;
    readonly planting_removed: string;
    readonly planting_restored: string;
    readonly planting_merged: string;
    readonly planting_unmerged: string;
    readonly walk_started: string;
    readonly walk_finished: string;
    readonly walk_reopened: string;
    readonly walk_edited: string;
    readonly walk_removed: string;
    readonly walk_restored: string;
    readonly stop_added: string;
    readonly stop_placed: string;
    readonly head_read: string;
    readonly head_corrected: string;
    readonly head_removed: string;
    readonly branch_moved: string;
    readonly undone: string;
    readonly file_imported: string;
    readonly weather_imported: string;
    readonly weather_typed: string;
    readonly station_placed: string;
    readonly heat_set_saved: string;
    readonly heat_set_removed: string;
    readonly heat_set_restored: string;
    readonly heat_set_chosen: string;
    readonly hybrid_edited: string;
    readonly field_edited: string;
    readonly outlines_imported: string;
    readonly outline_removed: string;
    readonly photo_added: string;
    readonly photo_captioned: string;
    readonly photo_removed: string;
    readonly photo_restored: string;
    readonly observed: string;
    readonly observation_corrected: string;
    readonly observation_removed: string;
    readonly terms_set: string;
    readonly harvest_undone: string;
    readonly newer: string;
  };
  readonly fields: {
    readonly name: string;
    readonly farm: string;
    readonly field: string;
    readonly hybrid: string;
    readonly planted_on: string;
    readonly half_bloom_on: string;
    readonly purpose: string;
    readonly area: string;
    readonly station: string;
    readonly outline: string;
    readonly heat_set: string;
    readonly merged_into: string;
    readonly maturity: string;
    readonly scale: string;
    readonly planting: string;
    readonly walked_on: string;
    readonly scout: string;
    readonly finished: string;
    readonly number: string;
    readonly place: string;
    readonly caption: string;
    readonly removed: string;
    readonly newer: string;
  };
  readonly parts: {
    readonly kind: string;
    readonly meter: string;
    readonly meter_name: string;
    readonly meter_error: string;
    readonly percents: string;
    readonly frame_square_feet: string;
    readonly seeds: string;
    readonly heads: string;
    readonly lodged: string;
    readonly weak_stalks: string;
    readonly weathering: string;
    readonly on: string;
    readonly scout: string;
    readonly note: string;
    readonly removed: string;
    readonly newer: string;
  };
  readonly otherTerm: string;
  readonly yes: string;
  readonly no: string;
  readonly nothing: string;
  readonly position: (latitude: number, longitude: number) => string;
  readonly quoted: (note: string) => string;
  readonly fieldSet: (field: string, to: string) => string;
  readonly fieldChanged: (field: string, to: string, was: string) => string;
  readonly walkOf: (on: string) => string;
  readonly walkOfBy: (on: string, scout: string) => string;
  readonly stop: (stop: number) => string;
  readonly photo: string;
  readonly heads: (count: number) => string;
  readonly headCorrected: (to: string, was: string) => string;
  readonly headOut: (head: string) => string;
  readonly aHeadOut: string;
  readonly headBack: (head: string) => string;
  readonly aHeadBack: string;
  readonly you: string;
  readonly someone: string;
  readonly by: (who: string, device: string) => string;
  readonly takenBack: string;
  readonly takeBack: string;
  readonly takeBackOf: (act: string, at: string) => string;
  readonly done: string;
  readonly older: string;
  readonly end: string;
  readonly empty: string;
  readonly openWalk: (on: string) => string;
  readonly compareOpen: string;
  readonly compareTitle: string;
  readonly compareNeeds: string;
  readonly firstWalk: string;
  readonly secondWalk: string;
  readonly sameWalk: string;
  readonly earlierWalk: (on: string) => string;
  readonly laterWalk: (on: string) => string;
  readonly days: (days: number) => string;
  readonly gainedTitle: string;
  readonly gainedMore: (mid: number, low: number, high: number, reached: string) => string;
  readonly gainedFewer: (mid: number, low: number, high: number, reached: string) => string;
  readonly gainedUnknown: (down: string, up: string, reached: string) => string;
  readonly fewer: (count: number) => string;
  readonly moreHeads: (count: number) => string;
  readonly noMore: string;
  readonly gainedNone: string;
  readonly gainedNote: (level: number) => string;
  readonly searchTitle: string;
  readonly search: string;
  readonly searchHint: string;
  readonly searchStart: string;
  readonly searchNone: (text: string) => string;
  readonly found: (count: number) => string;
  readonly plantings: string;
  readonly walks: string;
  readonly notes: string;
  readonly foundBy: {
    readonly name: string;
    readonly hybrid: string;
    readonly field: string;
    readonly farm: string;
  };
  readonly noteAt: (planting: string, on: string, stop: number) => string;
  readonly more: string;
}

export const past = {
  of: ['name'],
  position: ['latitude', 'longitude'],
  quoted: ['note'],
  fieldSet: ['field', 'to'],
  fieldChanged: ['field', 'to', 'was'],
  walkOf: ['on'],
  walkOfBy: ['on', 'scout'],
  stop: ['stop'],
  heads: ['count'],
  headCorrected: ['to', 'was'],
  headOut: ['head'],
  headBack: ['head'],
  by: ['who', 'device'],
  takeBackOf: ['act', 'at'],
  openWalk: ['on'],
  earlierWalk: ['on'],
  laterWalk: ['on'],
  days: ['days'],
  gainedMore: ['mid', 'low', 'high', 'reached'],
  gainedFewer: ['mid', 'low', 'high', 'reached'],
  gainedUnknown: ['down', 'up', 'reached'],
  fewer: ['count'],
  moreHeads: ['count'],
  gainedNote: ['level'],
  searchNone: ['text'],
  found: ['count'],
  noteAt: ['planting', 'on', 'stop'],
};
