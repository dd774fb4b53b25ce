// Words for the numbers, units and formulas of a harvest.

import type { Factor, Formula, Fuel, Grade, HarvestTerm, Meter, OutletWay, Quantity, Unit, Whose } from '../contract';
import type { UnitName } from '../harvest/measures';
import { number } from './format';
import { inBoth } from './language.svelte';

const termEn: Record<HarvestTerm, string> = {
  yield: 'Yield that stands',
  price: 'Price at base moisture',
  base_moisture: 'Base moisture of the price',
  target_moisture: 'Own target moisture',
  wettest_to_cut: 'Wettest grain to cut',
  loss_per_day: 'Loss by standing',
  loss_below_moisture: 'Losses begin below',
  loss_per_wet_day: 'Further loss on a wet day',
  lodged: 'Plants lodged',
  lodged_factor: 'A lodged plant loses, times as fast',
  after_freeze_factor: 'After a killing freeze all lose, times as fast',
  freeze_at_hard_dough: 'Weight lost to a freeze at hard dough',
  freeze_at_soft_dough: 'Weight lost to a freeze at soft dough',
  damage_per_wet_day: 'Damage that a wet day adds',
  test_weight_per_wet_day: 'Test weight that a wet day takes',
  fuel_price: 'Price of the fuel',
  fuel_use: 'Fuel that drying takes (as propane)',
  handling: 'Handling at the dryer',
  dryer_capacity: 'What the dryer takes',
  combine_rate: 'What the combine cuts',
  cutting_cost: 'Cutting and hauling',
  test_weight: 'Test weight',
  heat_damage: 'Heat-damaged kernels',
  total_damage: 'Damaged kernels, all',
  foreign_material: 'Foreign material',
  broken_and_foreign: 'Broken kernels and foreign material',
  seeds_per_pound: 'Seeds by weight',
  seeds_per_head: 'Seeds of a whole head',
};

const termEs: Record<HarvestTerm, string> = {
  yield: 'Rendimiento en pie',
  price: 'Precio a humedad base',
  base_moisture: 'Humedad base del precio',
  target_moisture: 'Humedad objetivo propia',
  wettest_to_cut: 'Grano más húmedo que se corta',
  loss_per_day: 'Pérdida por esperar en pie',
  loss_below_moisture: 'Las pérdidas empiezan bajo',
  loss_per_wet_day: 'Pérdida adicional en un día lluvioso',
  lodged: 'Plantas acamadas',
  lodged_factor: 'Una planta acamada pierde, veces más rápido',
  after_freeze_factor: 'Tras una helada letal todas pierden, veces más rápido',
  freeze_at_hard_dough: 'Peso perdido por helada en masa dura',
  freeze_at_soft_dough: 'Peso perdido por helada en masa blanda',
  damage_per_wet_day: 'Daño que suma un día lluvioso',
  test_weight_per_wet_day: 'Peso hectolítrico que quita un día lluvioso',
  fuel_price: 'Precio del combustible',
  fuel_use: 'Combustible para secar (como propano)',
  handling: 'Manejo en la secadora',
  dryer_capacity: 'Capacidad de la secadora',
  combine_rate: 'Lo que corta la cosechadora',
  cutting_cost: 'Corte y acarreo',
  test_weight: 'Peso hectolítrico',
  heat_damage: 'Granos dañados por calor',
  total_damage: 'Granos dañados, total',
  foreign_material: 'Material extraño',
  broken_and_foreign: 'Granos quebrados y material extraño',
  seeds_per_pound: 'Semillas por peso',
  seeds_per_head: 'Semillas de una panoja entera',
};

const unitEn: Record<UnitName, string> = {
  percent: '%',
  percentADay: '% a day',
  points: 'points',
  times: '×',
  seeds: 'seeds',
  busAcre: 'bu/ac',
  tHectare: 't/ha',
  dollarBu: '$/bu',
  dollarT: '$/t',
  dollarGallon: '$/gal',
  dollarLiter: '$/L',
  dollarTherm: '$/therm',
  dollarKwh: '$/kWh',
  gallonBuPoint: 'gal/bu and point',
  literTPoint: 'L/t and point',
  buPointsDay: 'bu × points/day',
  tPointsDay: 't × points/day',
  acresDay: 'ac/day',
  hectaresDay: 'ha/day',
  dollarAcre: '$/ac',
  dollarHectare: '$/ha',
  poundsBu: 'lb/bu',
  kgHl: 'kg/hL',
  seedsPound: 'seeds/lb',
  seedsKg: 'seeds/kg',
};

const unitEs: Record<UnitName, string> = {
  ...unitEn,
  percentADay: '% al día',
  points: 'puntos',
  seeds: 'semillas',
  gallonBuPoint: 'gal/bu y punto',
  literTPoint: 'L/t y punto',
  buPointsDay: 'bu × puntos/día',
  tPointsDay: 't × puntos/día',
  acresDay: 'ac/día',
  hectaresDay: 'ha/día',
  seedsPound: 'semillas/lb',
  seedsKg: 'semillas/kg',
};

const outletEn: Record<OutletWay, string> = {
  sold_shrunk: 'Sold as cut, shrunk to base',
  sold_by_weight: 'Sold as cut, by its weight',
  dried_first: 'Dried first in my dryer',
};

const outletEs: Record<OutletWay, string> = {
  sold_shrunk: 'Se vende húmedo, con merma a base',
  sold_by_weight: 'Se vende húmedo, por su peso',
  dried_first: 'Se seca antes en mi secadora',
};

const fuelEn: Record<Fuel, string> = { propane: 'Propane', natural_gas: 'Natural gas', electricity: 'Electricity' };
const fuelEs: Record<Fuel, string> = { propane: 'Propano', natural_gas: 'Gas natural', electricity: 'Electricidad' };

const factorEn: Record<Factor, string> = {
  moisture: 'Moisture',
  test_weight: 'Test weight',
  heat_damage: 'Heat damage',
  total_damage: 'Damage, all',
  foreign_material: 'Foreign material',
  broken_and_foreign: 'Broken and foreign',
};

const factorEs: Record<Factor, string> = {
  moisture: 'Humedad',
  test_weight: 'Peso hectolítrico',
  heat_damage: 'Daño por calor',
  total_damage: 'Daño total',
  foreign_material: 'Material extraño',
  broken_and_foreign: 'Quebrados y extraño',
};

const gradeEn: Record<Grade, string> = {
  no_1: 'U.S. No. 1',
  no_2: 'U.S. No. 2',
  no_3: 'U.S. No. 3',
  no_4: 'U.S. No. 4',
  sample_grade: 'U.S. Sample grade',
};

const gradeEs: Record<Grade, string> = { ...gradeEn, sample_grade: 'U.S. Sample grade (fuera de grado)' };

const meterEn: Record<Meter, string> = { hand: 'Hand meter', bench: 'Bench meter', oven: 'Oven' };
const meterEs: Record<Meter, string> = { hand: 'Medidor de mano', bench: 'Medidor de mesa', oven: 'Estufa' };

const whoseEn: Record<Whose, string> = {
  user: 'yours',
  counted: 'counted here',
  published: 'published',
  assumed: 'a guess of Headwalk',
};

const whoseEs: Record<Whose, string> = {
  user: 'suyo',
  counted: 'contado aquí',
  published: 'publicado',
  assumed: 'una suposición de Headwalk',
};

const formulaEn: Record<Formula, string> = {
  dry_share: 'Weight at base moisture per weight as cut',
  wet_value: 'Value of wet grain',
  over_dry_value: 'Value of grain drier than the base',
  drying_cost: 'Fuel to dry a bushel',
  all_energy_cost: 'Fuel and fans to dry a bushel',
  ground_loss: 'Loss on the ground',
};

const formulaEs: Record<Formula, string> = {
  dry_share: 'Peso a humedad base por peso cortado',
  wet_value: 'Valor del grano húmedo',
  over_dry_value: 'Valor del grano más seco que la base',
  drying_cost: 'Combustible para secar un bushel',
  all_energy_cost: 'Combustible y ventiladores para secar un bushel',
  ground_loss: 'Pérdida en el suelo',
};

const quantityEn: Record<Quantity, string> = {
  moisture: 'moisture',
  base_moisture: 'base moisture',
  grain_price: 'price',
  fuel_price: 'price of fuel',
  fuel_use: 'fuel for a bushel and a point',
  dry_share: 'share',
  value: 'value',
  cost: 'cost',
  seeds_on_ground: 'seeds on the ground',
  seeds_per_pound: 'seeds to a pound',
  loss: 'loss',
};

const quantityEs: Record<Quantity, string> = {
  moisture: 'humedad',
  base_moisture: 'humedad base',
  grain_price: 'precio',
  fuel_price: 'precio del combustible',
  fuel_use: 'combustible por bushel y punto',
  dry_share: 'proporción',
  value: 'valor',
  cost: 'costo',
  seeds_on_ground: 'semillas en el suelo',
  seeds_per_pound: 'semillas por libra',
  loss: 'pérdida',
};

const formulaUnitEn: Record<Unit, string> = {
  percent: '%',
  ratio: '',
  dollars_per_cwt: '$/cwt',
  dollars_per_bushel: '$/bu',
  dollars_per_gallon: '$/gal',
  dollars_per_therm: '$/therm',
  dollars_per_kilowatt_hour: '$/kWh',
  gallons_per_bushel_point: 'gal',
  therms_per_bushel_point: 'therm',
  kilowatt_hours_per_bushel_point: 'kWh',
  seeds_per_square_foot: 'seeds/ft²',
  seeds_per_pound: 'seeds/lb',
  bushels_per_acre: 'bu/ac',
};

const formulaUnitEs: Record<Unit, string> = {
  ...formulaUnitEn,
  seeds_per_square_foot: 'semillas/pie²',
  seeds_per_pound: 'semillas/lb',
};

/** Numbers, units and formulas of a harvest. */
export const harvestTerms = inBoth(
  {
    term: termEn,
    unit: unitEn,
    outlet: outletEn,
    outletLabel: 'Where the grain goes',
    fuel: fuelEn,
    fuelLabel: 'The dryer burns',
    factor: factorEn,
    grade: gradeEn,
    meter: meterEn,
    whose: whoseEn,
    formula: formulaEn,
    quantity: quantityEn,
    formulaUnit: formulaUnitEn,
    notSaid: 'not said',
    setForAll: 'for all plantings',
    setForThis: 'for this planting',
    takeBack: (what: string) => `Take mine back: ${what}`,
    mayLie: (low: string, high: string) => `may lie between ${low} and ${high}`,
    change: (what: string, value: string, whose: string) => `${what}: ${value}, ${whose}. Change it`,
    type: (what: string, unit: string) => `${what}, ${unit}`,
    source: (text: string) => `Source: ${text}.`,
    worked: (result: number, unit: string) => `= ${number(result, 4)} ${unit}`.trim(),
  },
  {
    term: termEs,
    unit: unitEs,
    outlet: outletEs,
    outletLabel: 'Destino del grano',
    fuel: fuelEs,
    fuelLabel: 'La secadora usa',
    factor: factorEs,
    grade: gradeEs,
    meter: meterEs,
    whose: whoseEs,
    formula: formulaEs,
    quantity: quantityEs,
    formulaUnit: formulaUnitEs,
    notSaid: 'sin indicar',
    setForAll: 'para todas las siembras',
    setForThis: 'para esta siembra',
    takeBack: (what: string) => `Quitar el mío: ${what}`,
    mayLie: (low: string, high: string) => `puede estar entre ${low} y ${high}`,
    change: (what: string, value: string, whose: string) => `${what}: ${value}, ${whose}. Cambiarlo`,
    type: (what: string, unit: string) => `${what}, ${unit}`,
    source: (text: string) => `Fuente: ${text}.`,
    worked: (result: number, unit: string) => `= ${number(result, 4)} ${unit}`.trim(),
  },
);
