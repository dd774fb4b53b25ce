// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface HarvestTermsWords {
  readonly term: {
    readonly yield: string;
    readonly price: string;
    readonly base_moisture: string;
    readonly target_moisture: string;
    readonly wettest_to_cut: string;
    readonly loss_per_day: string;
    readonly loss_below_moisture: string;
    readonly loss_per_wet_day: string;
    readonly lodged: string;
    readonly lodged_factor: string;
    readonly after_freeze_factor: string;
    readonly freeze_at_hard_dough: string;
    readonly freeze_at_soft_dough: string;
    readonly damage_per_wet_day: string;
    readonly test_weight_per_wet_day: string;
    readonly shrink_per_point: string;
    readonly drying_charge: string;
    readonly fuel_price: string;
    readonly fuel_use: string;
    readonly handling: string;
    readonly dryer_capacity: string;
    readonly combine_rate: string;
    readonly cutting_cost: string;
    readonly test_weight: string;
    readonly heat_damage: string;
    readonly total_damage: string;
    readonly foreign_material: string;
    readonly broken_and_foreign: string;
    readonly seeds_per_pound: string;
    readonly seeds_per_head: string;
  };
  readonly unit: {
    readonly percent: string;
    readonly percentADay: string;
    readonly percentAPoint: string;
    readonly points: string;
    readonly times: string;
    readonly seeds: string;
    readonly busAcre: string;
    readonly tHectare: string;
    readonly dollarBu: string;
    readonly dollarT: string;
    readonly dollarGallon: string;
    readonly dollarLiter: string;
    readonly dollarTherm: string;
    readonly dollarKwh: string;
    readonly centsBuPoint: string;
    readonly dollarTPoint: string;
    readonly gallonBuPoint: string;
    readonly literTPoint: string;
    readonly buPointsDay: string;
    readonly tPointsDay: string;
    readonly acresDay: string;
    readonly hectaresDay: string;
    readonly dollarAcre: string;
    readonly dollarHectare: string;
    readonly poundsBu: string;
    readonly kgHl: string;
    readonly seedsPound: string;
    readonly seedsKg: string;
  };
  readonly outlet: {
    readonly sold_shrunk: string;
    readonly sold_by_weight: string;
    readonly dried_first: string;
  };
  readonly outletLabel: string;
  readonly wetGrain: {
    readonly shrink: string;
    readonly table: string;
    readonly energy: string;
  };
  readonly wetGrainLabel: string;
  readonly fuel: {
    readonly propane: string;
    readonly natural_gas: string;
    readonly electricity: string;
  };
  readonly fuelLabel: string;
  readonly factor: {
    readonly moisture: string;
    readonly test_weight: string;
    readonly heat_damage: string;
    readonly total_damage: string;
    readonly foreign_material: string;
    readonly broken_and_foreign: string;
  };
  readonly grade: {
    readonly no_1: string;
    readonly no_2: string;
    readonly no_3: string;
    readonly no_4: string;
    readonly sample_grade: string;
  };
  readonly meter: {
    readonly hand: string;
    readonly bench: string;
    readonly oven: string;
  };
  readonly whose: {
    readonly user: string;
    readonly counted: string;
    readonly published: string;
    readonly assumed: string;
  };
  readonly formula: {
    readonly dry_share: string;
    readonly wet_value: string;
    readonly over_dry_value: string;
    readonly buyer_shrink: string;
    readonly drying_cost: string;
    readonly all_energy_cost: string;
    readonly ground_loss: string;
  };
  readonly quantity: {
    readonly moisture: string;
    readonly base_moisture: string;
    readonly grain_price: string;
    readonly shrink_per_point: string;
    readonly fuel_price: string;
    readonly fuel_use: string;
    readonly dry_share: string;
    readonly value: string;
    readonly cost: string;
    readonly seeds_on_ground: string;
    readonly seeds_per_pound: string;
    readonly loss: string;
  };
  readonly formulaUnit: {
    readonly percent: string;
    readonly ratio: string;
    readonly dollars_per_cwt: string;
    readonly dollars_per_bushel: string;
    readonly dollars_per_gallon: string;
    readonly dollars_per_therm: string;
    readonly dollars_per_kilowatt_hour: string;
    readonly gallons_per_bushel_point: string;
    readonly therms_per_bushel_point: string;
    readonly kilowatt_hours_per_bushel_point: string;
    readonly seeds_per_square_foot: string;
    readonly seeds_per_pound: string;
    readonly bushels_per_acre: string;
  };
  readonly notSaid: string;
  readonly setForAll: string;
  readonly setForThis: string;
  readonly takeBack: (what: string) => string;
  readonly mayLie: (low: string, high: string) => string;
  readonly change: (what: string, value: string, whose: string) => string;
  readonly type: (what: string, unit: string) => string;
  readonly source: (text: string) => string;
  readonly result: (result: number, unit: string) => string;
  readonly resultAlone: (result: number) => string;
}

export const harvestTerms = {
  takeBack: ['what'],
  mayLie: ['low', 'high'],
  change: ['what', 'value', 'whose'],
  type: ['what', 'unit'],
  source: ['text'],
  result: ['result', 'unit'],
  resultAlone: ['result'],
};
