// The terms of a harvest in the units of the settings. The notebook keeps them
// in one unit; what is shown, stepped and typed is in the user's.

import type { Fuel, HarvestInput, HarvestTerm, Units } from '../contract';

const POUNDS_PER_BUSHEL = 56;
const KG_PER_POUND = 0.45359237;
const ACRES_PER_HECTARE = 2.4710538;
const LITERS_PER_GALLON = 3.785411784;

const TONNES_PER_BUSHEL = (POUNDS_PER_BUSHEL * KG_PER_POUND) / 1000;
const TONNES_PER_CWT = (100 * KG_PER_POUND) / 1000;

/** Names of units that the messages have words for. */
export type UnitName =
  | 'percent'
  | 'percentADay'
  | 'percentAPoint'
  | 'points'
  | 'times'
  | 'seeds'
  | 'busAcre'
  | 'tHectare'
  | 'dollarBu'
  | 'dollarT'
  | 'dollarGallon'
  | 'dollarLiter'
  | 'dollarTherm'
  | 'dollarKwh'
  | 'centsBuPoint'
  | 'dollarTPoint'
  | 'gallonBuPoint'
  | 'literTPoint'
  | 'buPointsDay'
  | 'tPointsDay'
  | 'acresDay'
  | 'hectaresDay'
  | 'dollarAcre'
  | 'dollarHectare'
  | 'poundsBu'
  | 'kgHl'
  | 'seedsPound'
  | 'seedsKg';

/** How a term is shown. */
export interface Measure {
  unit: UnitName;
  /** Shown value per stored value. */
  factor: number;
  decimals: number;
  /** A step of the buttons and the slider, as shown. */
  step: number;
  /** Ends of the slider, as shown. */
  slide: readonly [number, number];
}

function measure(unit: UnitName, factor: number, step: number, slide: readonly [number, number]): Measure {
  const decimals = step >= 1 ? 0 : step >= 0.1 ? 1 : step >= 0.01 ? 2 : 3;
  return { unit, factor, decimals, step, slide };
}

/** The measure of a term, in these units and for this fuel. */
export function measureOf(term: HarvestTerm, units: Units, fuel: Fuel): Measure {
  const metric = units === 'metric';
  switch (term) {
    case 'yield':
      return metric
        ? measure('tHectare', TONNES_PER_CWT * ACRES_PER_HECTARE, 0.1, [0, 12])
        : measure('busAcre', 100 / POUNDS_PER_BUSHEL, 1, [10, 200]);
    case 'price':
      return metric
        ? measure('dollarT', 1 / TONNES_PER_CWT, 1, [60, 400])
        : measure('dollarBu', POUNDS_PER_BUSHEL / 100, 0.05, [2, 10]);
    case 'base_moisture':
    case 'target_moisture':
    case 'wettest_to_cut':
    case 'loss_below_moisture':
      return measure('percent', 1, 0.5, [10, 30]);
    case 'loss_per_day':
      return measure('percentADay', 1, 0.05, [0, 3]);
    case 'loss_per_wet_day':
      return measure('percent', 1, 0.1, [0, 5]);
    case 'lodged':
      return measure('percent', 100, 5, [0, 100]);
    case 'lodged_factor':
    case 'after_freeze_factor':
      return measure('times', 1, 0.5, [0, 10]);
    case 'freeze_at_hard_dough':
    case 'freeze_at_soft_dough':
      return measure('percent', 1, 1, [0, 60]);
    case 'heat_damage':
    case 'total_damage':
    case 'foreign_material':
    case 'broken_and_foreign':
      return measure('percent', 1, 0.1, [0, 20]);
    case 'damage_per_wet_day':
      return measure('points', 1, 0.1, [0, 5]);
    case 'test_weight':
      return metric ? measure('kgHl', 1.2872, 0.5, [55, 85]) : measure('poundsBu', 1, 0.5, [40, 65]);
    case 'test_weight_per_wet_day':
      return metric ? measure('kgHl', 1.2872, 0.1, [0, 3]) : measure('poundsBu', 1, 0.1, [0, 2]);
    case 'shrink_per_point':
      return measure('percentAPoint', 1, 0.01, [1.16, 2]);
    case 'drying_charge':
      return metric
        ? measure('dollarTPoint', 1 / TONNES_PER_BUSHEL, 0.05, [0, 4])
        : measure('centsBuPoint', 100, 0.1, [0, 10]);
    case 'fuel_price':
      if (fuel === 'natural_gas') return measure('dollarTherm', 1, 0.05, [0, 4]);
      if (fuel === 'electricity') return measure('dollarKwh', 1, 0.01, [0, 0.5]);
      return metric
        ? measure('dollarLiter', 1 / LITERS_PER_GALLON, 0.02, [0, 1.5])
        : measure('dollarGallon', 1, 0.05, [0, 5]);
    case 'fuel_use':
      return metric
        ? measure('literTPoint', LITERS_PER_GALLON / TONNES_PER_BUSHEL, 0.1, [0, 6])
        : measure('gallonBuPoint', 1, 0.001, [0, 0.04]);
    case 'handling':
      return metric ? measure('dollarT', 1 / TONNES_PER_BUSHEL, 0.2, [0, 20]) : measure('dollarBu', 1, 0.01, [0, 0.5]);
    case 'dryer_capacity':
      return metric
        ? measure('tPointsDay', TONNES_PER_BUSHEL, 50, [0, 3000])
        : measure('buPointsDay', 1, 1000, [1000, 100000]);
    case 'combine_rate':
      return metric ? measure('hectaresDay', 1 / ACRES_PER_HECTARE, 1, [1, 100]) : measure('acresDay', 1, 5, [5, 250]);
    case 'cutting_cost':
      return metric ? measure('dollarHectare', ACRES_PER_HECTARE, 1, [0, 200]) : measure('dollarAcre', 1, 1, [0, 100]);
    case 'seeds_per_pound':
      return metric
        ? measure('seedsKg', 1 / KG_PER_POUND, 500, [11000, 88000])
        : measure('seedsPound', 1, 500, [5000, 40000]);
    case 'seeds_per_head':
      return measure('seeds', 1, 50, [50, 5000]);
  }
}

/** The term that an input of the sensitivity stands for. */
export const TERM_OF: Record<HarvestInput, HarvestTerm> = {
  yield: 'yield',
  price: 'price',
  loss_per_day: 'loss_per_day',
  loss_below_moisture: 'loss_below_moisture',
  loss_per_wet_day: 'loss_per_wet_day',
  lodged: 'lodged',
  lodged_factor: 'lodged_factor',
  after_freeze_factor: 'after_freeze_factor',
  freeze_at_hard_dough: 'freeze_at_hard_dough',
  freeze_at_soft_dough: 'freeze_at_soft_dough',
  damage_per_wet_day: 'damage_per_wet_day',
  test_weight_per_wet_day: 'test_weight_per_wet_day',
  fuel_use: 'fuel_use',
  fuel_price: 'fuel_price',
};

/** A stored value as shown, without the dust of the conversion. */
export function shownValue(value: number, of: Measure): number {
  return Number((value * of.factor).toFixed(of.decimals + 1));
}

/** What was shown or typed as it is stored, held to what is accepted. */
export function storedValue(shown: number, of: Measure, least: number, most: number): number {
  return Math.min(most, Math.max(least, shown / of.factor));
}

/** Money per acre in the area of the settings. */
export function perArea(dollarsPerAcre: number, units: Units): number {
  return units === 'metric' ? dollarsPerAcre * ACRES_PER_HECTARE : dollarsPerAcre;
}

/** Bushels an acre as kilograms a hectare. */
export function kgPerHectare(bushelsPerAcre: number): number {
  return bushelsPerAcre * TONNES_PER_BUSHEL * 1000 * ACRES_PER_HECTARE;
}

/** Money per hundredweight as the settings count grain: by the bushel or the tonne. */
export function perGrain(dollarsPerCwt: number, units: Units): number {
  return units === 'metric' ? dollarsPerCwt / TONNES_PER_CWT : (dollarsPerCwt * POUNDS_PER_BUSHEL) / 100;
}

/** Cents a hundredweight, as discount tables keep them, from cents a bushel or dollars a tonne. */
export function discountShown(centsPerCwt: number, units: Units): number {
  const shown = units === 'metric' ? centsPerCwt / 100 / TONNES_PER_CWT : (centsPerCwt * POUNDS_PER_BUSHEL) / 100;
  return Number(shown.toFixed(2));
}

/** The other way. */
export function discountStored(shown: number, units: Units): number {
  return units === 'metric' ? shown * 100 * TONNES_PER_CWT : (shown * 100) / POUNDS_PER_BUSHEL;
}

/** A frame's area, square feet, as shown: square feet or square meters. */
export const SQUARE_FEET_PER_SQUARE_METER = 10.7639104;

/** Acres in the area of the settings. */
export function areaShown(acres: number, units: Units): number {
  return units === 'metric' ? acres / ACRES_PER_HECTARE : acres;
}
