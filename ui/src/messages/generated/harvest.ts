// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface HarvestWords {
  readonly open: string;
  readonly title: string;
  readonly moistureTitle: string;
  readonly moistureNow: (mid: number, low: number, high: number) => string;
  readonly dryingRate: (mid: number, low: number, high: number) => string;
  readonly levelNote: string;
  readonly windowReached: string;
  readonly windowSpan: (from: string, to: string, middle: string, today: string) => string;
  readonly windowFrom: (from: string, today: string, never: number) => string;
  readonly windowUnlikely: (never: number) => string;
  readonly atTarget: (target: number, own: boolean) => string;
  readonly otherSame: string;
  readonly otherLater: (days: number) => string;
  readonly otherEarlier: (days: number) => string;
  readonly otherNever: string;
  readonly restsOn: (seasons: number, readings: number) => string;
  readonly noReading: string;
  readonly offBy: (on: string, told: number, expected: number) => string;
  readonly noWeather: (days: number) => string;
  readonly fanLabel: string;
  readonly fanHint: string;
  readonly moistureOn: (on: string, mid: number, low: number, high: number) => string;
  readonly tableTitle: string;
  readonly tableDay: string;
  readonly tableLow: string;
  readonly tableMid: string;
  readonly tableHigh: string;
  readonly addReading: string;
  readonly countGround: string;
  readonly score: string;
  readonly markCut: string;
  readonly marked: string;
  readonly cut: (on: string) => string;
  readonly notCutAfterAll: string;
  readonly over: (on: string) => string;
  readonly moneyTitle: string;
  readonly money: (value: number) => string;
  readonly bestDay: (day: string, net: string) => string;
  readonly asGood: (day: string, from: string, to: string, today: string) => string;
  readonly net: (amount: string, area: string) => string;
  readonly netBetween: (amount: string, area: string, low: string, high: string) => string;
  readonly atTheEnd: string;
  readonly waitingCosts: (from: string, today: string, amount: number, area: string, loses: number) => string;
  readonly waitingGains: (from: string, today: string, amount: number, area: string, loses: number) => string;
  readonly why: {
    readonly loss_not_known: string;
    readonly wet_grain_cost_not_known: string;
    readonly not_fit_in_time: string;
  };
  readonly moneyLabel: string;
  readonly netOn: (on: string, mid: number, area: string, low: number, high: number) => string;
  readonly perAcre: string;
  readonly perHectare: string;
  readonly acresAssumed: (size: string) => string;
  readonly whatIfTitle: string;
  readonly whatIfNote: string;
  readonly keepThese: string;
  readonly layAside: string;
  readonly kept: string;
  readonly sensitivityTitle: string;
  readonly sensitivityNote: string;
  readonly regret: (amount: string) => string;
  readonly swing: (low: string, high: string) => string;
  readonly guessesNone: string;
  readonly allTerms: string;
  readonly termsTitle: string;
  readonly termsOfAll: string;
  readonly termsOfOne: (name: string) => string;
  readonly termsForAll: string;
  readonly groups: {
    readonly money: string;
    readonly outlet: string;
    readonly standing: string;
    readonly weather: string;
    readonly sample: string;
    readonly machines: string;
    readonly seeds: string;
  };
  readonly wetTitle: string;
  readonly wetSet: string;
  readonly wetNotKnown: string;
  readonly wetByWeight: string;
  readonly wetShrinkNote: (least: number) => string;
  readonly wetTableNote: string;
  readonly wetEnergyNote: string;
  readonly wetField: (what: string, unit: string) => string;
  readonly wetFieldOptional: (what: string, unit: string) => string;
  readonly wetNeedNumber: string;
  readonly wetPaysForWater: (typed: number, least: number) => string;
  readonly wetTooMuch: (most: number) => string;
  readonly wetPayTitle: string;
  readonly wetPayNote: string;
  readonly wetPay: (moisture: number, pay: string, off: number) => string;
  readonly wetPayRefused: (moisture: number) => string;
  readonly wetSave: string;
  readonly discountsTitle: string;
  readonly discountsNote: string;
  readonly discountsNone: string;
  readonly discountBeyond: (factor: string, unit: string) => string;
  readonly discountBelow: (factor: string, unit: string) => string;
  readonly discountOff: {
    readonly us: string;
    readonly metric: string;
  };
  readonly discountRefused: string;
  readonly addLine: string;
  readonly removeLine: (line: number) => string;
  readonly keepTable: string;
  readonly tableNumber: string;
  readonly grainTitle: string;
  readonly moistureOfGrain: string;
  readonly worthRefused: (value: string) => string;
  readonly worth: (value: string, net: string) => string;
  readonly gradeLine: (grade: string) => string;
  readonly gradeUnknown: string;
  readonly gradeMissing: (factors: string) => string;
  readonly gradeSource: string;
  readonly discountLine: (factor: string, value: string, off: string) => string;
  readonly discountRefuses: (factor: string, value: string) => string;
  readonly storageTemp: string;
  readonly storageDays: (answer: 'about' | 'more_than' | 'less_than', days: number) => string;
  readonly storageSource: string;
  readonly formulas: string;
  readonly readingTitle: string;
  readonly meter: string;
  readonly meterName: string;
  readonly meterNameHint: string;
  readonly meterError: string;
  readonly meterErrorHint: string;
  readonly day: string;
  readonly sample: (at: number) => string;
  readonly sampleHint: string;
  readonly moreSample: string;
  readonly readingHintsTitle: string;
  readonly readingHintsCold: (cold: string) => string;
  readonly readingHints: {
    readonly tillers: string;
    readonly mix: string;
    readonly buyer: string;
    readonly wet: string;
  };
  readonly note: string;
  readonly keepReading: string;
  readonly needPercent: string;
  readonly mean: (mean: number, count: number) => string;
  readonly readingsTitle: string;
  readonly readingLine: (on: string, mean: number, count: number) => string;
  readonly correct: string;
  readonly remove: string;
  readonly removed: string;
  readonly taken: string;
  readonly groundTitle: string;
  readonly groundNote: string;
  readonly frame: string;
  readonly frameOther: string;
  readonly frameNumber: (at: number) => string;
  readonly tapCount: (count: number) => string;
  readonly tapHint: string;
  readonly fewer: string;
  readonly plusTen: string;
  readonly nextFrame: string;
  readonly headsOnGround: string;
  readonly headsHint: string;
  readonly keepCount: string;
  readonly frameDone: (at: number, seeds: number) => string;
  readonly soFar: (perFoot: string, loss: string, low: string, high: string) => string;
  readonly seedsPerFoot: (value: number) => string;
  readonly seedsPerMeter: (value: number) => string;
  readonly ofCrop: (share: number) => string;
  readonly lossADay: (low: number, value: number, high: number) => string;
  readonly oneCount: string;
  readonly groundSource: string;
  readonly countsTitle: string;
  readonly standingTitle: string;
  readonly lodged: string;
  readonly lodgedHint: string;
  readonly weak: string;
  readonly weakHint: string;
  readonly weakNone: string;
  readonly weathering: string;
  readonly weatheringWords: {
    readonly score0: string;
    readonly score3: string;
    readonly score6: string;
    readonly score9: string;
  };
  readonly weatheringHint: string;
  readonly keepScore: string;
  readonly scoresTitle: string;
  readonly scoresNone: string;
  readonly scoreOf: (on: string, lodged: number, weathering: number) => string;
  readonly scoreWithWeak: (on: string, lodged: number, weathering: number, weak: number) => string;
  readonly marksOf: (on: string, heads: number, lodged: number, lodgedLow: number, lodgedHigh: number, moldy: number, moldyLow: number, moldyHigh: number) => string;
  readonly legendLodged: string;
  readonly legendWeathering: string;
  readonly orderTitle: string;
  readonly orderText: string;
  readonly orderImproved: string;
  readonly orderEmpty: string;
  readonly orderSum: (net: string) => string;
  readonly orderLine: (span: string, net: string) => string;
  readonly givenUp: (amount: string) => string;
  readonly noWetCost: string;
  readonly noLoss: string;
  readonly leftOut: string;
  readonly wasCut: (on: string, today: string) => string;
  readonly notInOrder: {
    readonly not_fit: string;
    readonly silage: string;
    readonly over: string;
  };
  readonly caution: {
    readonly bin: string;
    readonly dryer: string;
    readonly dust: string;
    readonly heat: string;
  };
}

export const harvest = {
  moistureNow: ['mid', 'low', 'high'],
  dryingRate: ['mid', 'low', 'high'],
  windowSpan: ['from', 'to', 'middle', 'today'],
  windowFrom: ['from', 'today', 'never'],
  windowUnlikely: ['never'],
  atTarget: ['target', 'own'],
  otherLater: ['days'],
  otherEarlier: ['days'],
  restsOn: ['seasons', 'readings'],
  offBy: ['on', 'told', 'expected'],
  noWeather: ['days'],
  moistureOn: ['on', 'mid', 'low', 'high'],
  cut: ['on'],
  over: ['on'],
  money: ['value'],
  bestDay: ['day', 'net'],
  asGood: ['day', 'from', 'to', 'today'],
  net: ['amount', 'area'],
  netBetween: ['amount', 'area', 'low', 'high'],
  waitingCosts: ['from', 'today', 'amount', 'area', 'loses'],
  waitingGains: ['from', 'today', 'amount', 'area', 'loses'],
  netOn: ['on', 'mid', 'area', 'low', 'high'],
  acresAssumed: ['size'],
  regret: ['amount'],
  swing: ['low', 'high'],
  termsOfOne: ['name'],
  wetShrinkNote: ['least'],
  wetField: ['what', 'unit'],
  wetFieldOptional: ['what', 'unit'],
  wetPaysForWater: ['typed', 'least'],
  wetTooMuch: ['most'],
  wetPay: ['moisture', 'pay', 'off'],
  wetPayRefused: ['moisture'],
  discountBeyond: ['factor', 'unit'],
  discountBelow: ['factor', 'unit'],
  removeLine: ['line'],
  worthRefused: ['value'],
  worth: ['value', 'net'],
  gradeLine: ['grade'],
  gradeMissing: ['factors'],
  discountLine: ['factor', 'value', 'off'],
  discountRefuses: ['factor', 'value'],
  storageDays: ['answer', 'days'],
  sample: ['at'],
  readingHintsCold: ['cold'],
  mean: ['mean', 'count'],
  readingLine: ['on', 'mean', 'count'],
  frameNumber: ['at'],
  tapCount: ['count'],
  frameDone: ['at', 'seeds'],
  soFar: ['perFoot', 'loss', 'low', 'high'],
  seedsPerFoot: ['value'],
  seedsPerMeter: ['value'],
  ofCrop: ['share'],
  lossADay: ['low', 'value', 'high'],
  scoreOf: ['on', 'lodged', 'weathering'],
  scoreWithWeak: ['on', 'lodged', 'weathering', 'weak'],
  marksOf: ['on', 'heads', 'lodged', 'lodgedLow', 'lodgedHigh', 'moldy', 'moldyLow', 'moldyHigh'],
  orderSum: ['net'],
  orderLine: ['span', 'net'],
  givenUp: ['amount'],
  wasCut: ['on', 'today'],
};
