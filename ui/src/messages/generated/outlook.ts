// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface OutlookWords {
  readonly title: string;
  readonly open: string;
  readonly forPlanting: (name: string) => string;
  readonly event: {
    readonly half_bloom: string;
    readonly milk: string;
    readonly soft_dough: string;
    readonly hard_dough: string;
    readonly black_layer: string;
    readonly moisture_20: string;
    readonly moisture_18: string;
    readonly moisture_16: string;
    readonly moisture_14: string;
  };
  readonly notPlantedYet: (on: string) => string;
  readonly nothingToStartFrom: string;
  readonly noWeather: string;
  readonly heatUnknown: (from: string) => string;
  readonly weatherEndsEarly: (on: string) => string;
  readonly noDaysAhead: string;
  readonly notBeforeFreeze: (chance: number, horizon: string) => string;
  readonly beforeWeather: string;
  readonly noMoisture: string;
  readonly eventLacks: (event: string, why: string) => string;
  readonly window: {
    readonly boot_nights: string;
    readonly bloom_weather: string;
    readonly last_irrigation: string;
    readonly silage: string;
    readonly harvest_aid: string;
    readonly freeze: string;
    readonly prussic_acid: string;
    readonly nitrate: string;
  };
  readonly sourceOf: (source: string) => string;
  readonly sources: {
    readonly cold_sterility: string;
    readonly bloom_heat: string;
    readonly last_irrigation_practice: string;
    readonly silage_extension: string;
    readonly harvest_aid_extension: string;
    readonly freeze_loss: string;
    readonly prussic_acid_extension: string;
    readonly nitrate_practice: string;
  };
  readonly caution: {
    readonly lines_differ_in_cold: string;
    readonly rain_shown_no_loss_claimed: string;
    readonly irrigation_local_rules: string;
    readonly test_whole_plant_moisture: string;
    readonly label_and_local_rules_first: string;
    readonly low_ground_freezes_first: string;
    readonly test_ask_vet_prussic_acid: string;
    readonly test_ask_vet_nitrate: string;
  };
  readonly foundColdNights: (cold: number, nights: number, limit: string, inRow: number) => string;
  readonly foundColdest: (lowest: string) => string;
  readonly foundChanceOfFive: (chance: number) => string;
  readonly foundHotDays: (hot: number, days: number, limit: string, veryHot: number, higherLimit: string) => string;
  readonly foundWarmDays: (warm: number, limit: string) => string;
  readonly foundHottest: (highest: string) => string;
  readonly foundRain: (rain: string, days: number) => string;
  readonly foundRainUnknown: (days: number) => string;
  readonly foundChanceOfVeryHot: (limit: string, chance: number) => string;
  readonly foundLastIrrigation: string;
  readonly foundSilage: string;
  readonly foundHarvestAid: string;
  readonly foundFreezeWas: (limit: string, on: string) => string;
  readonly foundFreezeChance: (limit: string, chance: number) => string;
  readonly foundFreezeLoss: (limit: string, stage: string, low: number, high: number) => string;
  readonly foundNoFreezeLoss: string;
  readonly foundFroze: (on: string, least: string, most: string) => string;
  readonly foundNotFrozen: string;
  readonly foundRainThreeWeeks: (rain: string) => string;
  readonly foundDryThreeWeeks: (rain: string) => string;
  readonly next: string;
  readonly eventBetween: (event: string, from: string, to: string, today: string) => string;
  readonly eventNotBefore: (event: string, from: string, today: string) => string;
  readonly middle: (iso: string, today: string) => string;
  readonly levelNote: string;
  readonly eventUndated: (event: string) => string;
  readonly eventPassed: (event: string) => string;
  readonly betweenPlaces: (when: string, low: string, high: string) => string;
  readonly touchHint: string;
  readonly stripKey: string;
  readonly tableTitle: string;
  readonly tableCaption: string;
  readonly tableEvent: string;
  readonly tableEarly: string;
  readonly tableMiddle: string;
  readonly tableLate: string;
  readonly windowsTitle: string;
  readonly standing: {
    readonly ahead: string;
    readonly may_be_open: string;
    readonly past: string;
    readonly unknown: string;
  };
  readonly windowBetween: (from: string, to: string, earliest: string, latest: string, today: string) => string;
  readonly windowNow: (window: string) => string;
  readonly windowDated: (window: string, earliest: string, latest: string, today: string) => string;
  readonly windowUntil: (to: string, latest: string, today: string) => string;
  readonly restsTitle: string;
  readonly restsSightings: (sightings: number) => string;
  readonly restsTables: string;
  readonly restsLearned: (plantings: number) => string;
  readonly restsWeather: (from: string, to: string) => string;
  readonly restsWeatherFilled: (from: string, to: string, filled: number) => string;
  readonly restsNoSeasons: string;
  readonly restsSeasons: (seasons: number) => string;
  readonly restsFewSeasons: (seasons: number) => string;
  readonly fortnightTitle: string;
  readonly fortnightText: string;
  readonly fortnightEmpty: string;
  readonly fortnightSilent: (count: number) => string;
}

export const outlook = {
  forPlanting: ['name'],
  notPlantedYet: ['on'],
  heatUnknown: ['from'],
  weatherEndsEarly: ['on'],
  notBeforeFreeze: ['chance', 'horizon'],
  eventLacks: ['event', 'why'],
  sourceOf: ['source'],
  foundColdNights: ['cold', 'nights', 'limit', 'inRow'],
  foundColdest: ['lowest'],
  foundChanceOfFive: ['chance'],
  foundHotDays: ['hot', 'days', 'limit', 'veryHot', 'higherLimit'],
  foundWarmDays: ['warm', 'limit'],
  foundHottest: ['highest'],
  foundRain: ['rain', 'days'],
  foundRainUnknown: ['days'],
  foundChanceOfVeryHot: ['limit', 'chance'],
  foundFreezeWas: ['limit', 'on'],
  foundFreezeChance: ['limit', 'chance'],
  foundFreezeLoss: ['limit', 'stage', 'low', 'high'],
  foundFroze: ['on', 'least', 'most'],
  foundRainThreeWeeks: ['rain'],
  foundDryThreeWeeks: ['rain'],
  eventBetween: ['event', 'from', 'to', 'today'],
  eventNotBefore: ['event', 'from', 'today'],
  middle: ['iso', 'today'],
  eventUndated: ['event'],
  eventPassed: ['event'],
  betweenPlaces: ['when', 'low', 'high'],
  windowBetween: ['from', 'to', 'earliest', 'latest', 'today'],
  windowNow: ['window'],
  windowDated: ['window', 'earliest', 'latest', 'today'],
  windowUntil: ['to', 'latest', 'today'],
  restsSightings: ['sightings'],
  restsLearned: ['plantings'],
  restsWeather: ['from', 'to'],
  restsWeatherFilled: ['from', 'to', 'filled'],
  restsSeasons: ['seasons'],
  restsFewSeasons: ['seasons'],
  fortnightSilent: ['count'],
};
