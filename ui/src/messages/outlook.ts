// Sentences of the outlook: dates as spans, reasons why one is missing, and the
// windows that cost money with their sources and cautions.

import type { Whereabouts } from '../stage-line/geometry';
import { common } from './common';
import { date, dateSpan, hundredths, number } from './format';
import { inBoth } from './language.svelte';
import { stages } from './stages';
import { rain, temperature } from './units';
import type {
  Caution,
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

const eventsEn: Record<EventName, string> = {
  half_bloom: 'half bloom',
  milk: 'milk',
  soft_dough: 'soft dough',
  hard_dough: 'hard dough',
  black_layer: 'black layer',
  moisture_20: 'grain at 20 %',
  moisture_18: 'grain at 18 %',
  moisture_16: 'grain at 16 %',
  moisture_14: 'grain at 14 %',
};

const eventsEs: Record<EventName, string> = {
  half_bloom: common.es.stage.half_bloom,
  milk: common.es.stage.milk,
  soft_dough: common.es.stage.soft_dough,
  hard_dough: common.es.stage.hard_dough,
  black_layer: common.es.stage.black_layer,
  moisture_20: 'grano al 20 %',
  moisture_18: 'grano al 18 %',
  moisture_16: 'grano al 16 %',
  moisture_14: 'grano al 14 %',
};

const capital = (text: string) => text.replace(/^./, (first) => first.toUpperCase());
const lower = (text: string) => text.replace(/^./, (first) => first.toLowerCase());

function whyEn(why: Why): string {
  switch (why.code) {
    case 'not_planted_yet':
      return `It is planted on ${date(why.planted_on)}, after the day of this outlook.`;
    case 'nothing_to_start_from':
      return 'There is neither a planting date nor a walk to start from. Give the date, or walk it once.';
    case 'no_weather':
      return 'There is no weather up to now. Bring in a weather file, or type in the highs and lows.';
    case 'heat_unknown':
      return `The weather has a gap from ${date(why.open_from)} on, and no walk lies after it. Fill the gap, or walk it once.`;
    case 'weather_ends_early':
      return `The weather ends on ${date(why.ends_on)}. Bring it up to date.`;
    case 'no_days_ahead':
      return 'The weather holds no past season for the days ahead. Bring in earlier years of the station.';
    case 'not_before':
      return `In ${why.in_hundred} of 100 possible seasons it does not come before a killing freeze or ${date(why.horizon)}.`;
    case 'before_weather':
      return 'It came before the weather begins.';
    default:
      return 'Grain moisture is not forecast for this planting.';
  }
}

function whyEs(why: Why): string {
  switch (why.code) {
    case 'not_planted_yet':
      return `Se siembra el ${date(why.planted_on)}, después del día de este pronóstico.`;
    case 'nothing_to_start_from':
      return 'No hay fecha de siembra ni recorrida de la que partir. Dé la fecha o recórrala una vez.';
    case 'no_weather':
      return 'No hay tiempo registrado hasta hoy. Traiga un archivo del tiempo o escriba las máximas y mínimas.';
    case 'heat_unknown':
      return `Falta el tiempo desde el ${date(why.open_from)} y no hay recorrida posterior. Complételo o recórrala una vez.`;
    case 'weather_ends_early':
      return `El tiempo termina el ${date(why.ends_on)}. Póngalo al día.`;
    case 'no_days_ahead':
      return 'El tiempo no trae temporadas pasadas para los días que vienen. Traiga años anteriores de la estación.';
    case 'not_before':
      return `En ${why.in_hundred} de 100 temporadas posibles no llega antes de una helada mortal o del ${date(why.horizon)}.`;
    case 'before_weather':
      return 'Ocurrió antes de que empiece el tiempo registrado.';
    default:
      return 'La humedad del grano no se pronostica para esta siembra.';
  }
}

const windowsEn: Record<WindowKind['what'], string> = {
  boot_nights: 'Cold nights at boot',
  bloom_weather: 'Weather over bloom',
  last_irrigation: 'Last irrigation',
  silage: 'Silage cut',
  harvest_aid: 'Harvest aid',
  freeze: 'Freeze before black layer',
  prussic_acid: 'Prussic acid after a freeze',
  nitrate: 'Nitrate in forage',
};

const windowsEs: Record<WindowKind['what'], string> = {
  boot_nights: 'Noches frías en embuche',
  bloom_weather: 'Tiempo durante la floración',
  last_irrigation: 'Último riego',
  silage: 'Corte para silaje',
  harvest_aid: 'Desecante',
  freeze: 'Helada antes de la capa negra',
  prussic_acid: 'Ácido prúsico tras una helada',
  nitrate: 'Nitratos en el forraje',
};

const sourcesEn: Record<Source, string> = {
  cold_sterility: 'Downes & Marshall 1971; Brooking 1976',
  bloom_heat: 'Prasad et al. 2015; Singh et al. 2015. For rain no published number was found.',
  last_irrigation_practice: 'common practice',
  silage_extension: 'university extension',
  harvest_aid_extension: 'Texas extension; GRDC 2014',
  freeze_loss: 'Staggenborg & Vanderlip 1996; Texas extension',
  prussic_acid_extension: 'Nebraska extension (5 to 7 days); other states (up to two weeks)',
  nitrate_practice: 'common practice',
};

const sourcesEs: Record<Source, string> = {
  ...sourcesEn,
  bloom_heat: 'Prasad et al. 2015; Singh et al. 2015. Para la lluvia no se halló cifra publicada.',
  last_irrigation_practice: 'práctica común',
  silage_extension: 'extensión universitaria',
  harvest_aid_extension: 'extensión de Texas; GRDC 2014',
  freeze_loss: 'Staggenborg y Vanderlip 1996; extensión de Texas',
  prussic_acid_extension: 'extensión de Nebraska (5 a 7 días); otros estados (hasta dos semanas)',
  nitrate_practice: 'práctica común',
};

const cautionsEn: Record<Caution, string> = {
  lines_differ_in_cold: 'Hybrids differ widely in cold tolerance. Look for empty florets two weeks after bloom.',
  rain_shown_no_loss_claimed:
    'Hybrids differ in heat tolerance. Rain is shown, no loss is claimed from it. Look at seed set.',
  irrigation_local_rules: 'Soil water, your allocation and local rules decide.',
  test_whole_plant_moisture: 'Test the moisture of the whole plant before cutting (65 to 70 %).',
  label_and_local_rules_first:
    'The label and local rules come first. It dries leaf, stalk and late tillers, not the grain. Check for stalk rot and lodging, treat only what can be cut in time, and ask a licensed adviser.',
  low_ground_freezes_first: 'Low ground freezes first, and the station may not feel it.',
  test_ask_vet_prussic_acid:
    'Do not graze or green-chop after a freeze; each new freeze starts the wait again. Have it tested, and ask the vet and the extension office.',
  test_ask_vet_nitrate: 'Have it tested before feeding, and ask the vet and the extension office.',
};

const cautionsEs: Record<Caution, string> = {
  lines_differ_in_cold:
    'Los híbridos difieren mucho en tolerancia al frío. Busque flores vacías dos semanas después de la floración.',
  rain_shown_no_loss_claimed:
    'Los híbridos difieren en tolerancia al calor. La lluvia se muestra, sin atribuirle pérdida. Mire el cuaje.',
  irrigation_local_rules: 'Deciden el agua del suelo, su dotación y las normas locales.',
  test_whole_plant_moisture: 'Mida la humedad de la planta entera antes de cortar (65 a 70 %).',
  label_and_local_rules_first:
    'Primero la etiqueta y las normas locales. Seca hoja, tallo y macollos tardíos, no el grano. Revise pudrición y acame, trate solo lo que se pueda cosechar a tiempo y consulte a un asesor autorizado.',
  low_ground_freezes_first: 'Los bajos se hielan primero y la estación puede no notarlo.',
  test_ask_vet_prussic_acid:
    'No pastoree ni corte en verde tras una helada; cada helada reinicia la espera. Hágalo analizar y consulte al veterinario y a la oficina de extensión.',
  test_ask_vet_nitrate: 'Hágalo analizar antes de dar y consulte al veterinario y a la oficina de extensión.',
};

const percent = (chance: number) => `${hundredths(chance)}`;

function freezeEn(each: FreezeChance): string {
  if (each.was_on) return `${temperature(each.at_f)} was already there on ${date(each.was_on)}.`;
  return `${temperature(each.at_f)} before black layer: ${percent(each.before_black_layer)} chances in a hundred.`;
}

function freezeEs(each: FreezeChance): string {
  if (each.was_on) return `${temperature(each.at_f)} ya se dieron el ${date(each.was_on)}.`;
  return `${temperature(each.at_f)} antes de la capa negra: ${percent(each.before_black_layer)} de cada cien.`;
}

function forageEn(risk: ForageRisk): string[] {
  const found: string[] = [];
  if (risk.freeze)
    found.push(
      `It froze on ${date(risk.freeze.on)}. The shortest published wait ends ${date(risk.freeze.wait_least)}, the longest ${date(risk.freeze.wait_most)}.`,
    );
  else found.push('No freeze so far that still counts.');
  if (risk.rain_three_weeks_in !== null)
    found.push(`Rain of the last three weeks: ${rain(risk.rain_three_weeks_in)}${risk.dry ? ', which is dry' : ''}.`);
  return found;
}

function forageEs(risk: ForageRisk): string[] {
  const found: string[] = [];
  if (risk.freeze)
    found.push(
      `Heló el ${date(risk.freeze.on)}. La espera publicada más corta termina el ${date(risk.freeze.wait_least)}, la más larga el ${date(risk.freeze.wait_most)}.`,
    );
  else found.push('Ninguna helada hasta ahora que aún cuente.');
  if (risk.rain_three_weeks_in !== null)
    found.push(
      `Lluvia de las últimas tres semanas: ${rain(risk.rain_three_weeks_in)}${risk.dry ? ', o sea seco' : ''}.`,
    );
  return found;
}

function foundEn(kind: WindowKind): string[] {
  switch (kind.what) {
    case 'boot_nights': {
      const lines: string[] = [];
      if (kind.nights > 0)
        lines.push(
          `${kind.cold_nights} of ${kind.nights} nights were at ${temperature(50)} or colder, ${kind.cold_in_a_row} in a row at the most; five in a row made lines sterile.`,
        );
      if (kind.lowest_f !== null) lines.push(`Coldest night: ${temperature(kind.lowest_f)}.`);
      if (kind.chance_of_five !== null)
        lines.push(`Chance of five in a row by the end: ${percent(kind.chance_of_five)} in a hundred.`);
      return lines;
    }
    case 'bloom_weather': {
      const lines: string[] = [];
      if (kind.days > 0) {
        lines.push(
          `${kind.hot_days} of ${kind.days} days were above ${temperature(96.8)}, ${kind.very_hot_days} above ${temperature(100.4)}; highs like these around flowering cut seed set.`,
        );
        lines.push(`${kind.warm_days} days had a mean above ${temperature(77)}.`);
      }
      if (kind.highest_f !== null) lines.push(`Hottest: ${temperature(kind.highest_f)}.`);
      if (kind.rain_in !== null) lines.push(`Rain: ${rain(kind.rain_in)} on ${kind.wet_days} days.`);
      if (kind.rain_unknown > 0) lines.push(`Rain is not known for ${kind.rain_unknown} days.`);
      if (kind.chance_of_very_hot !== null)
        lines.push(
          `Chance of a day above ${temperature(100.4)} still to come: ${percent(kind.chance_of_very_hot)} in a hundred.`,
        );
      return lines;
    }
    case 'last_irrigation':
      return ['Water in the soil at soft dough carries the grain from here.'];
    case 'silage':
      return ['Silage is cut around soft dough.'];
    case 'harvest_aid':
      return ['Not before black layer, and not before the grain is below 30 %: on the later of the two.'];
    case 'freeze': {
      const lines = kind.chances.map(freezeEn);
      if (kind.loss_low !== null && kind.loss_high !== null && kind.meets !== null)
        lines.push(
          `${temperature(28)} for four hours at ${common.en.stage[kind.meets]} cost ${number(kind.loss_low, 1)} to ${number(kind.loss_high, 1)} % of the grain weight.`,
        );
      else if (kind.chances.length > 0)
        lines.push('For the stage a freeze would most likely meet, no published loss was found.');
      return lines;
    }
    default:
      return forageEn(kind);
  }
}

function foundEs(kind: WindowKind): string[] {
  switch (kind.what) {
    case 'boot_nights': {
      const lines: string[] = [];
      if (kind.nights > 0)
        lines.push(
          `${kind.cold_nights} de ${kind.nights} noches fueron de ${temperature(50)} o menos, ${kind.cold_in_a_row} seguidas como mucho; cinco seguidas esterilizaron líneas.`,
        );
      if (kind.lowest_f !== null) lines.push(`Noche más fría: ${temperature(kind.lowest_f)}.`);
      if (kind.chance_of_five !== null)
        lines.push(`Probabilidad de cinco seguidas hasta el final: ${percent(kind.chance_of_five)} de cada cien.`);
      return lines;
    }
    case 'bloom_weather': {
      const lines: string[] = [];
      if (kind.days > 0) {
        lines.push(
          `${kind.hot_days} de ${kind.days} días pasaron de ${temperature(96.8)}, ${kind.very_hot_days} de ${temperature(100.4)}; tales máximas en floración reducen el cuaje.`,
        );
        lines.push(`${kind.warm_days} días tuvieron media superior a ${temperature(77)}.`);
      }
      if (kind.highest_f !== null) lines.push(`Máxima: ${temperature(kind.highest_f)}.`);
      if (kind.rain_in !== null) lines.push(`Lluvia: ${rain(kind.rain_in)} en ${kind.wet_days} días.`);
      if (kind.rain_unknown > 0) lines.push(`De ${kind.rain_unknown} días no se conoce la lluvia.`);
      if (kind.chance_of_very_hot !== null)
        lines.push(
          `Probabilidad de que aún venga un día de más de ${temperature(100.4)}: ${percent(kind.chance_of_very_hot)} de cada cien.`,
        );
      return lines;
    }
    case 'last_irrigation':
      return ['El agua en el suelo en masa blanda lleva el grano desde ahí.'];
    case 'silage':
      return ['El silaje se corta hacia masa blanda.'];
    case 'harvest_aid':
      return ['Ni antes de la capa negra ni antes de que el grano baje del 30 %: lo que llegue más tarde.'];
    case 'freeze': {
      const lines = kind.chances.map(freezeEs);
      if (kind.loss_low !== null && kind.loss_high !== null && kind.meets !== null)
        lines.push(
          `${temperature(28)} durante cuatro horas en ${common.es.stage[kind.meets]} costaron del ${number(kind.loss_low, 1)} al ${number(kind.loss_high, 1)} % del peso del grano.`,
        );
      else if (kind.chances.length > 0)
        lines.push('Para la etapa que más probablemente alcanzaría una helada no se halló pérdida publicada.');
      return lines;
    }
    default:
      return forageEs(kind);
  }
}

/** The outlook of one planting, and the fortnight over all. */
export const outlook = inBoth(
  {
    title: 'Outlook',
    open: 'Outlook: when will it be there?',
    forPlanting: (name: string) => `Outlook for ${name}`,
    event: eventsEn,
    why: whyEn,
    lacking: (event: EventName, why: Why) => `${capital(eventsEn[event])}: ${lower(whyEn(why))}`,
    window: windowsEn,
    source: (of: Source) => `Source: ${sourcesEn[of]}`,
    caution: cautionsEn,
    found: foundEn,
    next: 'What comes next',
    spanOf: (event: EventName, dates: EventDates, today: string) => {
      const name = capital(eventsEn[event]);
      if (dates.p10 && dates.p90) return `${name}: ${dateSpan(dates.p10, dates.p90, today)}`;
      if (dates.p10) return `${name}: not before ${date(dates.p10, today)}`;
      return name;
    },
    middle: (iso: string, today: string) => `most likely about ${date(iso, today)}`,
    levelNote: 'Each span holds the day eight times in ten.',
    passed: (event: EventName) => `${capital(eventsEn[event])}: passed`,
    onDay: (when: string, low: Whereabouts, high: Whereabouts) =>
      `${when}: from ${stages.en.place(low)} to ${stages.en.place(high)}.`,
    touchHint: 'Filled: what has been. Hatched: what lies ahead. Touch the chart to read a day.',
    stripKey: 'Each day from low to high; below it, rain.',
    tableTitle: 'As a table',
    tableCaption: 'Dates by event: one chance in ten before, the middle, one in ten after',
    tableEvent: 'Event',
    tableEarly: 'Early',
    tableMiddle: 'Middle',
    tableLate: 'Late',
    windowsTitle: 'Windows that cost money',
    standing: { ahead: 'Ahead', may_be_open: 'May be open now', past: 'Past', unknown: 'Cannot be dated' },
    between: (span: NonNullable<MoneyWindow['span']>, today: string) =>
      `${dateSpan(span.from, span.to, today)}, at the widest ${dateSpan(span.earliest, span.latest, today)}`,
    nextInRow: ({ kind, standing, span }: MoneyWindow, today: string) => {
      if (standing === 'may_be_open' && kind.what !== 'freeze') return `${windowsEn[kind.what]}: may be open now`;
      return span ? `${windowsEn[kind.what]}: ${dateSpan(span.earliest, span.latest, today)}` : windowsEn[kind.what];
    },
    until: (span: NonNullable<MoneyWindow['span']>, today: string) =>
      `until ${date(span.to, today)}, at the latest ${date(span.latest, today)}`,
    restsTitle: 'What this rests on',
    rests: (on: RestsOn) => [
      on.sightings === 1 ? '1 walk or noted bloom date' : `${on.sightings} walks or noted bloom dates`,
      on.plantings_of_hybrid === 0
        ? 'pace from the published tables alone'
        : `pace learned from ${on.plantings_of_hybrid} other plantings of the hybrid as well`,
      `weather from ${date(on.weather_from)} to ${date(on.weather_until)}${on.filled_days > 0 ? `, ${on.filled_days} days of it filled in by rule` : ''}`,
      on.days_ahead === null
        ? 'no past seasons for the days ahead'
        : on.days_ahead.way === 'past_seasons'
          ? `days ahead as ${on.days_ahead.seasons} past seasons had them`
          : `days ahead from only ${on.days_ahead.seasons} past seasons, widened`,
    ],
    fortnightTitle: 'This fortnight',
    fortnightText: 'Windows that may be open within the next fourteen days, the soonest first.',
    fortnightEmpty:
      'No window may open in the next fourteen days. Bring in weather and walk the plantings to see further.',
    fortnightSilent: (count: number) =>
      count === 1 ? '1 planting cannot be dated:' : `${count} plantings cannot be dated:`,
  },
  {
    title: 'Pronóstico',
    open: 'Pronóstico: ¿cuándo estará?',
    forPlanting: (name: string) => `Pronóstico de ${name}`,
    event: eventsEs,
    why: whyEs,
    lacking: (event: EventName, why: Why) => `${capital(eventsEs[event])}: ${lower(whyEs(why))}`,
    window: windowsEs,
    source: (of: Source) => `Fuente: ${sourcesEs[of]}`,
    caution: cautionsEs,
    found: foundEs,
    next: 'Lo que viene',
    spanOf: (event: EventName, dates: EventDates, today: string) => {
      const name = capital(eventsEs[event]);
      if (dates.p10 && dates.p90) return `${name}: ${dateSpan(dates.p10, dates.p90, today)}`;
      if (dates.p10) return `${name}: no antes del ${date(dates.p10, today)}`;
      return name;
    },
    middle: (iso: string, today: string) => `lo más probable hacia el ${date(iso, today)}`,
    levelNote: 'Cada intervalo contiene el día ocho de cada diez veces.',
    passed: (event: EventName) => `${capital(eventsEs[event])}: pasado`,
    onDay: (when: string, low: Whereabouts, high: Whereabouts) =>
      `${when}: de ${stages.es.place(low)} a ${stages.es.place(high)}.`,
    touchHint: 'Lleno: lo que ha sido. Rayado: lo que viene. Toque el gráfico para leer un día.',
    stripKey: 'Cada día de mínima a máxima; debajo, la lluvia.',
    tableTitle: 'En tabla',
    tableCaption: 'Fechas por suceso: una de cada diez antes, el medio, una de cada diez después',
    tableEvent: 'Suceso',
    tableEarly: 'Pronto',
    tableMiddle: 'Medio',
    tableLate: 'Tarde',
    windowsTitle: 'Momentos que cuestan dinero',
    standing: { ahead: 'Por venir', may_be_open: 'Puede ser ahora', past: 'Pasado', unknown: 'Sin fecha posible' },
    between: (span: NonNullable<MoneyWindow['span']>, today: string) =>
      `${dateSpan(span.from, span.to, today)}, a lo sumo ${dateSpan(span.earliest, span.latest, today)}`,
    nextInRow: ({ kind, standing, span }: MoneyWindow, today: string) => {
      if (standing === 'may_be_open' && kind.what !== 'freeze') return `${windowsEs[kind.what]}: puede ser ahora`;
      return span ? `${windowsEs[kind.what]}: ${dateSpan(span.earliest, span.latest, today)}` : windowsEs[kind.what];
    },
    until: (span: NonNullable<MoneyWindow['span']>, today: string) =>
      `hasta el ${date(span.to, today)}, a más tardar el ${date(span.latest, today)}`,
    restsTitle: 'En qué se apoya',
    rests: (on: RestsOn) => [
      on.sightings === 1
        ? '1 recorrida o fecha de floración anotada'
        : `${on.sightings} recorridas o fechas de floración anotadas`,
      on.plantings_of_hybrid === 0
        ? 'ritmo solo de las tablas publicadas'
        : `ritmo aprendido también de otras ${on.plantings_of_hybrid} siembras del híbrido`,
      `tiempo del ${date(on.weather_from)} al ${date(on.weather_until)}${on.filled_days > 0 ? `, ${on.filled_days} días completados por regla` : ''}`,
      on.days_ahead === null
        ? 'sin temporadas pasadas para los días que vienen'
        : on.days_ahead.way === 'past_seasons'
          ? `días que vienen como los tuvieron ${on.days_ahead.seasons} temporadas pasadas`
          : `días que vienen de solo ${on.days_ahead.seasons} temporadas pasadas, ensanchadas`,
    ],
    fortnightTitle: 'Esta quincena',
    fortnightText: 'Momentos que pueden darse en los próximos catorce días, primero el más cercano.',
    fortnightEmpty:
      'Nada puede darse en los próximos catorce días. Traiga el tiempo y recorra las siembras para ver más lejos.',
    fortnightSilent: (count: number) =>
      count === 1 ? '1 siembra no se puede fechar:' : `${count} siembras no se pueden fechar:`,
  },
);
