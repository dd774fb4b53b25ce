// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface BasisWords {
  readonly change: string;
  readonly title: (planting: string) => string;
  readonly titleOpen: string;
  readonly station: string;
  readonly stationText: string;
  readonly notPlaced: string;
  readonly noStation: string;
  readonly leaveToApp: string;
  readonly stationDistance: (km: number) => string;
  readonly stationUntil: (last: string) => string;
  readonly nearestMark: string;
  readonly forField: (field: string) => string;
  readonly forFieldHint: string;
  readonly kept: string;
  readonly usesNow: (name: string, by: string) => string;
  readonly chosenBy: {
    readonly planting: string;
    readonly field: string;
    readonly nearest: string;
    readonly only: string;
  };
  readonly place: string;
  readonly placeOf: (name: string) => string;
  readonly placeText: string;
  readonly latitude: string;
  readonly longitude: string;
  readonly placeKnown: (latitude: number, longitude: number) => string;
  readonly placeUnknown: string;
  readonly here: string;
  readonly looking: string;
  readonly noPosition: string;
  readonly placeBad: string;
  readonly keepPlace: string;
  readonly setsTitle: string;
  readonly setsText: string;
  readonly heatSet: string;
  readonly asWider: string;
  readonly asNotebook: string;
  readonly setBase: (base: number, degrees: string) => string;
  readonly setLimits: (base: number, upper: number, degrees: string) => string;
  readonly setUnused: string;
  readonly countsIn: (name: string) => string;
  readonly setBy: {
    readonly planting: string;
    readonly hybrid: string;
    readonly notebook: string;
    readonly default: string;
  };
  readonly inUse: string;
  readonly useSet: string;
  readonly editSet: string;
  readonly newSet: string;
  readonly newSetTitle: string;
  readonly editSetTitle: string;
  readonly removeSet: string;
  readonly setRemoved: (name: string) => string;
  readonly setRestored: (name: string) => string;
  readonly setName: string;
  readonly setSource: string;
  readonly setSourceHint: string;
  readonly unit: string;
  readonly units: {
    readonly fahrenheit: string;
    readonly celsius: string;
  };
  readonly base: string;
  readonly upper: string;
  readonly method: string;
  readonly methods: {
    readonly both_limits: string;
    readonly upper_limit_only: string;
    readonly plain_mean: string;
  };
  readonly tables: string;
  readonly column: (at: number) => string;
  readonly columnName: string;
  readonly addColumn: string;
  readonly dropColumn: string;
  readonly mark: {
    readonly emergence: string;
    readonly three_leaf: string;
    readonly five_leaf: string;
    readonly growing_point: string;
    readonly flag_leaf: string;
    readonly boot: string;
    readonly half_bloom: string;
    readonly soft_dough: string;
    readonly hard_dough: string;
    readonly black_layer: string;
  };
  readonly unitsFromPlanting: string;
  readonly needNumbers: string;
  readonly startFrom: string;
  readonly saveSet: string;
  readonly hybridsTitle: string;
  readonly hybridsEmpty: string;
  readonly hybridPlantings: (count: number) => string;
  readonly maturity: string;
  readonly maturityText: string;
  readonly className: {
    readonly early: string;
    readonly medium_early: string;
    readonly medium: string;
    readonly medium_late: string;
    readonly late: string;
  };
  readonly classUnknown: string;
  readonly classUnits: (units: number) => string;
  readonly daysInGuide: string;
  readonly daysHint: string;
  readonly paceTitle: string;
  readonly paceText: string;
  readonly pacePublished: (low: number, high: number) => string;
  readonly paceLearned: (plantings: number, mid: number, low: number, high: number) => string;
  readonly paceNothing: string;
  readonly paceNext: (low: number, high: number) => string;
  readonly bloomTitle: string;
  readonly bloomLine: (mid: number, low: number, high: number) => string;
  readonly bloomPublished: (low: number, high: number) => string;
  readonly plantingPace: (mid: number, low: number, high: number, sightings: number) => string;
  readonly plantingUnseen: string;
  readonly otherSet: string;
  readonly chartLabel: string;
  readonly rowPublished: string;
  readonly rowLearned: string;
  readonly rowNext: string;
  readonly tableTitle: string;
  readonly tableWhat: string;
  readonly tableLow: string;
  readonly tableMid: string;
  readonly tableHigh: string;
  readonly halfBloomHint: string;
  readonly emptied: string;
  readonly step: {
    readonly reading: string;
    readonly storing: string;
  };
  readonly progress: (step: string, share: number) => string;
  readonly stopping: string;
  readonly stoppedFile: string;
  readonly maturityOf: {
    readonly early: string;
    readonly medium_early: string;
    readonly medium: string;
    readonly medium_late: string;
    readonly late: string;
  };
  readonly maturityNotKnown: string;
}

export const basis = {
  title: ['planting'],
  stationDistance: ['km'],
  stationUntil: ['last'],
  forField: ['field'],
  usesNow: ['name', 'by'],
  placeOf: ['name'],
  placeKnown: ['latitude', 'longitude'],
  setBase: ['base', 'degrees'],
  setLimits: ['base', 'upper', 'degrees'],
  countsIn: ['name'],
  setRemoved: ['name'],
  setRestored: ['name'],
  column: ['at'],
  hybridPlantings: ['count'],
  classUnits: ['units'],
  pacePublished: ['low', 'high'],
  paceLearned: ['plantings', 'mid', 'low', 'high'],
  paceNext: ['low', 'high'],
  bloomLine: ['mid', 'low', 'high'],
  bloomPublished: ['low', 'high'],
  plantingPace: ['mid', 'low', 'high', 'sightings'],
  progress: ['step', 'share'],
};
