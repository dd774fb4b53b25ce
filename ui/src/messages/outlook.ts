// Sentences of the outlook: dates as spans, reasons why one is missing, and the
// windows that cost money with their sources and cautions.

import type { Whereabouts } from '../stage-line/geometry';
import { stages } from './stages';
import { rain, temperature } from './units';
import { words } from './words';
import type {
  EventDates,
  EventName,
  ForageRisk,
  FreezeChance,
  MoneyWindow,
  RestsOn,
  Source,
  Why,
  WindowKind,
} from '../contract';

type Span = NonNullable<MoneyWindow['span']>;
type Of<What extends WindowKind['what']> = Extract<WindowKind, { what: What }>;

function why(of: Why): string {
  switch (of.code) {
    case 'not_planted_yet':
      return words.outlook.notPlantedYet(of.planted_on);
    case 'nothing_to_start_from':
      return words.outlook.nothingToStartFrom;
    case 'no_weather':
      return words.outlook.noWeather;
    case 'heat_unknown':
      return words.outlook.heatUnknown(of.open_from);
    case 'weather_ends_early':
      return words.outlook.weatherEndsEarly(of.ends_on);
    case 'no_days_ahead':
      return words.outlook.noDaysAhead;
    case 'not_before':
      return words.outlook.notBeforeFreeze(of.in_hundred, of.horizon);
    case 'before_weather':
      return words.outlook.beforeWeather;
    default:
      return words.outlook.noMoisture;
  }
}

function freeze(each: FreezeChance): string {
  const limit = temperature(each.at_f);
  return each.was_on
    ? words.outlook.foundFreezeWas(limit, each.was_on)
    : words.outlook.foundFreezeChance(limit, each.before_black_layer);
}

function forage(risk: ForageRisk): string[] {
  const { foundFroze, foundNotFrozen, foundDryThreeWeeks, foundRainThreeWeeks } = words.outlook;
  const frozen = risk.freeze;
  const lines = [frozen ? foundFroze(frozen.on, frozen.wait_least, frozen.wait_most) : foundNotFrozen];
  if (risk.rain_three_weeks_in !== null) {
    const fallen = rain(risk.rain_three_weeks_in);
    lines.push(risk.dry ? foundDryThreeWeeks(fallen) : foundRainThreeWeeks(fallen));
  }
  return lines;
}

function bootNights(kind: Of<'boot_nights'>): string[] {
  const { foundColdNights, foundColdest, foundChanceOfFive } = words.outlook;
  const lines: string[] = [];
  if (kind.nights > 0) lines.push(foundColdNights(kind.cold_nights, kind.nights, temperature(50), kind.cold_in_a_row));
  if (kind.lowest_f !== null) lines.push(foundColdest(temperature(kind.lowest_f)));
  if (kind.chance_of_five !== null) lines.push(foundChanceOfFive(kind.chance_of_five));
  return lines;
}

function bloomWeather(kind: Of<'bloom_weather'>): string[] {
  const { foundHotDays, foundWarmDays, foundHottest, foundRain, foundRainUnknown, foundChanceOfVeryHot } =
    words.outlook;
  const lines: string[] = [];
  if (kind.days > 0) {
    lines.push(foundHotDays(kind.hot_days, kind.days, temperature(96.8), kind.very_hot_days, temperature(100.4)));
    lines.push(foundWarmDays(kind.warm_days, temperature(77)));
  }
  if (kind.highest_f !== null) lines.push(foundHottest(temperature(kind.highest_f)));
  if (kind.rain_in !== null) lines.push(foundRain(rain(kind.rain_in), kind.wet_days));
  if (kind.rain_unknown > 0) lines.push(foundRainUnknown(kind.rain_unknown));
  if (kind.chance_of_very_hot !== null) lines.push(foundChanceOfVeryHot(temperature(100.4), kind.chance_of_very_hot));
  return lines;
}

function freezes(kind: Of<'freeze'>): string[] {
  const { foundFreezeLoss, foundNoFreezeLoss } = words.outlook;
  const lines = kind.chances.map(freeze);
  if (kind.loss_low !== null && kind.loss_high !== null && kind.meets !== null)
    lines.push(foundFreezeLoss(temperature(28), words.common.stage[kind.meets], kind.loss_low, kind.loss_high));
  else if (kind.chances.length > 0) lines.push(foundNoFreezeLoss);
  return lines;
}

function found(kind: WindowKind): string[] {
  switch (kind.what) {
    case 'boot_nights':
      return bootNights(kind);
    case 'bloom_weather':
      return bloomWeather(kind);
    case 'last_irrigation':
      return [words.outlook.foundLastIrrigation];
    case 'silage':
      return [words.outlook.foundSilage];
    case 'harvest_aid':
      return [words.outlook.foundHarvestAid];
    case 'freeze':
      return freezes(kind);
    default:
      return forage(kind);
  }
}

function daysAhead(ahead: RestsOn['days_ahead']): string {
  if (ahead === null) return words.outlook.restsNoSeasons;
  const { restsSeasons, restsFewSeasons } = words.outlook;
  return (ahead.way === 'past_seasons' ? restsSeasons : restsFewSeasons)(ahead.seasons);
}

export const outlook = {
  why,
  lacking: (event: EventName, of: Why): string => words.outlook.eventLacks(words.outlook.event[event], why(of)),
  source: (of: Source): string => words.outlook.sourceOf(words.outlook.sources[of]),
  found,
  spanOf(event: EventName, { p10, p90 }: EventDates, today: string): string {
    const name = words.outlook.event[event];
    if (p10 && p90) return words.outlook.eventBetween(name, p10, p90, today);
    return p10 ? words.outlook.eventNotBefore(name, p10, today) : words.outlook.eventUndated(name);
  },
  passed: (event: EventName): string => words.outlook.eventPassed(words.outlook.event[event]),
  onDay: (when: string, low: Whereabouts, high: Whereabouts): string =>
    words.outlook.betweenPlaces(when, stages.place(low), stages.place(high)),
  between: ({ from, to, earliest, latest }: Span, today: string): string =>
    words.outlook.windowBetween(from, to, earliest, latest, today),
  nextInRow({ kind, standing, span }: MoneyWindow, today: string): string {
    const window = words.outlook.window[kind.what];
    if (standing === 'may_be_open' && kind.what !== 'freeze') return words.outlook.windowNow(window);
    return span ? words.outlook.windowDated(window, span.earliest, span.latest, today) : window;
  },
  until: ({ to, latest }: Span, today: string): string => words.outlook.windowUntil(to, latest, today),
  rests(on: RestsOn): string[] {
    const { restsSightings, restsTables, restsLearned, restsWeather, restsWeatherFilled } = words.outlook;
    return [
      restsSightings(on.sightings),
      on.plantings_of_hybrid === 0 ? restsTables : restsLearned(on.plantings_of_hybrid),
      on.filled_days > 0
        ? restsWeatherFilled(on.weather_from, on.weather_until, on.filled_days)
        : restsWeather(on.weather_from, on.weather_until),
      daysAhead(on.days_ahead),
    ];
  },
};
