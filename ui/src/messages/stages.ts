// Sentences about stages, bands and shares. Every number that is a guess is
// said with its two ends.

import type { Band, MoreStops, Stage } from '../contract';
import type { Whereabouts } from '../stage-line/geometry';
import type { Standing } from '../stage-line/standing';
import { common } from './common';
import { hundredths, number } from './format';
import { inBoth } from './language.svelte';

const en = common.en.stage;
const es = common.es.stage;

const tensEn = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const tensEs = ['ninguna', 'una', 'dos', 'tres', 'cuatro', 'cinco', 'seis', 'siete', 'ocho', 'nueve', 'diez'];

/** How a share is said: its middle in tenths, or as next to none or all. */
function tenths(band: Band): 'hardly' | 'all' | number {
  if (band.mid < 0.03) return 'hardly';
  if (band.mid > 0.97) return 'all';
  return Math.min(9, Math.max(1, Math.round(band.mid * 10)));
}

function atEn(stage: Stage): string {
  return stage === 'half_bloom' ? 'in bloom' : `at ${en[stage]}`;
}

function atEs(stage: Stage): string {
  return stage === 'half_bloom' ? 'en flor' : `en ${es[stage]}`;
}

function endsEn(band: Band): string {
  const low = hundredths(band.low);
  const high = hundredths(band.high);
  return low === high ? `${low} in a hundred` : `between ${low} and ${high} in a hundred`;
}

function endsEs(band: Band): string {
  const low = hundredths(band.low);
  const high = hundredths(band.high);
  return low === high ? `${low} de cada cien` : `entre ${low} y ${high} de cada cien`;
}

function headsEn(stage: Stage, band: Band): string {
  const many = tenths(band);
  const where = atEn(stage);
  const ends = endsEn(band);
  if (many === 'hardly') return `Hardly any heads are ${where} (${ends}).`;
  if (many === 'all') return `Nearly all heads are ${where} (${ends}).`;
  if (many === 5) return `About half of the heads are ${where} (${ends}).`;
  return `About ${tensEn[many]} ${many === 1 ? 'head in ten is' : 'heads in ten are'} ${where} (${ends}).`;
}

function headsEs(stage: Stage, band: Band): string {
  const many = tenths(band);
  const where = atEs(stage);
  const ends = endsEs(band);
  if (many === 'hardly') return `Casi ninguna panoja está ${where} (${ends}).`;
  if (many === 'all') return `Casi todas las panojas están ${where} (${ends}).`;
  if (many === 5) return `Cerca de la mitad de las panojas están ${where} (${ends}).`;
  if (many === 1) return `Cerca de una de cada diez panojas está ${where} (${ends}).`;
  return `Cerca de ${tensEs[many]} de cada diez panojas están ${where} (${ends}).`;
}

function grainEn(stage: Stage, band: Band): string {
  const many = tenths(band);
  const where = atEn(stage);
  const ends = endsEn(band);
  if (many === 'hardly') return `Hardly any of the grain is ${where} (${ends}).`;
  if (many === 'all') return `Nearly all of the grain is ${where} (${ends}).`;
  if (many === 5) return `About half of the grain is ${where} (${ends}).`;
  return `About ${tensEn[many]} ${many === 1 ? 'tenth' : 'tenths'} of the grain ${many === 1 ? 'is' : 'are'} ${where} (${ends}).`;
}

function grainEs(stage: Stage, band: Band): string {
  const many = tenths(band);
  const where = atEs(stage);
  const ends = endsEs(band);
  if (many === 'hardly') return `Casi nada del grano está ${where} (${ends}).`;
  if (many === 'all') return `Casi todo el grano está ${where} (${ends}).`;
  if (many === 5) return `Cerca de la mitad del grano está ${where} (${ends}).`;
  if (many === 1) return `Cerca de una décima parte del grano está ${where} (${ends}).`;
  return `Cerca de ${tensEs[many]} décimas partes del grano están ${where} (${ends}).`;
}

function placeEn(place: Whereabouts): string {
  switch (place.kind) {
    case 'at':
      return en[place.stage];
    case 'past':
      return `just past ${en[place.stage]}`;
    case 'between':
      return `halfway to ${en[place.to]}`;
    case 'nearing':
      return `nearing ${en[place.stage]}`;
  }
}

function placeEs(place: Whereabouts): string {
  switch (place.kind) {
    case 'at':
      return es[place.stage];
    case 'past':
      return `poco después de ${es[place.stage]}`;
    case 'between':
      return `a medio camino de ${es[place.to]}`;
    case 'nearing':
      return `cerca de ${es[place.stage]}`;
  }
}

/** Below this chance the likelier stage is only one of two. */
const LIKELY = 0.65;

function standingEn(now: Standing): string {
  const chance = hundredths(now.chance);
  if (now.kind === 'sure') return `At ${en[now.stage]} (${chance} in a hundred).`;
  const other = hundredths(now.otherChance);
  return now.chance >= LIKELY
    ? `Likely ${en[now.stage]} (${chance} in a hundred), else ${en[now.other]} (${other}).`
    : `${capital(en[now.stage])} or ${en[now.other]} (${chance} and ${other} in a hundred).`;
}

function standingEs(now: Standing): string {
  const chance = hundredths(now.chance);
  if (now.kind === 'sure') return `En ${es[now.stage]} (${chance} de cada cien).`;
  const other = hundredths(now.otherChance);
  return now.chance >= LIKELY
    ? `Probable ${es[now.stage]} (${chance} de cada cien), si no ${es[now.other]} (${other}).`
    : `${capital(es[now.stage])} o ${es[now.other]} (${chance} y ${other} de cada cien).`;
}

function bandEn(low: Whereabouts, high: Whereabouts, level: number): string {
  const sure = `With ${hundredths(level)} chances in a hundred the planting is`;
  if (placeEn(low) === placeEn(high)) return `${sure} ${low.kind === 'at' ? 'at ' : ''}${placeEn(low)}.`;
  return `${sure} between ${placeEn(low)} and ${placeEn(high)}.`;
}

function bandEs(low: Whereabouts, high: Whereabouts, level: number): string {
  const sure = `Con ${hundredths(level)} probabilidades de cada cien la siembra está`;
  if (placeEs(low) === placeEs(high)) return `${sure} ${low.kind === 'at' ? 'en ' : ''}${placeEs(low)}.`;
  return `${sure} entre ${placeEs(low)} y ${placeEs(high)}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function gainEn(more: MoreStops): string {
  const what = `${more.stops} more ${more.stops === 1 ? 'stop' : 'stops'} of ${more.heads_per_stop}`;
  return `${what} (about ${number(more.minutes)} min) would narrow the band to ${number(more.position_width, 1)} stages`;
}

function gainEs(more: MoreStops): string {
  const what =
    more.stops === 1 ? `1 parada más de ${more.heads_per_stop}` : `${more.stops} paradas más de ${more.heads_per_stop}`;
  const would = more.stops === 1 ? 'estrecharía' : 'estrecharían';
  return `${what} (unos ${number(more.minutes)} min) ${would} la banda a ${number(more.position_width, 1)} etapas`;
}

export const stages = inBoth(
  {
    heads: headsEn,
    grain: grainEn,
    place: placeEn,
    standing: standingEn,
    vaguest: (stage: Stage, band: Band) =>
      `Not well known: how many heads are ${atEn(stage)}, anything from ${hundredths(band.low)} to ${hundredths(band.high)} in a hundred.`,
    nothingVague: 'Every share below is known to within a fifth.',
    band: bandEn,
    lineWith: (stage: Stage, low: Whereabouts, high: Whereabouts, level: number) =>
      `${capital(en[stage])}. ${bandEn(low, high, level)}`,
    earlier: (count: number) =>
      count === 1 ? 'One earlier walk lies fainter below.' : `${count} earlier walks lie fainter below.`,
    lineWithout: 'Stage line from boot to black layer, with no walk on it yet.',
    enough: 'Enough: the target is met.',
    noHeads: 'No heads yet.',
    moreStops: (more: MoreStops | null) => (more ? `${gainEn(more)}.` : 'More stops would narrow the band.'),
    outOfReach: (more: MoreStops | null) =>
      more ? `${gainEn(more)}, still short of the target.` : 'More stops would not reach the target today.',
  },
  {
    heads: headsEs,
    grain: grainEs,
    place: placeEs,
    standing: standingEs,
    vaguest: (stage: Stage, band: Band) =>
      `No se sabe bien cuántas panojas están ${atEs(stage)}: de ${hundredths(band.low)} a ${hundredths(band.high)} de cada cien.`,
    nothingVague: 'Cada parte de abajo se conoce con un margen de menos de un quinto.',
    band: bandEs,
    lineWith: (stage: Stage, low: Whereabouts, high: Whereabouts, level: number) =>
      `${capital(es[stage])}. ${bandEs(low, high, level)}`,
    earlier: (count: number) =>
      count === 1
        ? 'Debajo, más tenue, una recorrida anterior.'
        : `Debajo, más tenues, ${count} recorridas anteriores.`,
    lineWithout: 'Línea de etapas de embuche a capa negra, todavía sin recorridas.',
    enough: 'Basta: se cumplió la meta.',
    noHeads: 'Todavía no hay panojas.',
    moreStops: (more: MoreStops | null) => (more ? `${gainEs(more)}.` : 'Más paradas estrecharían la banda.'),
    outOfReach: (more: MoreStops | null) =>
      more ? `${gainEs(more)}, sin llegar a la meta.` : 'Más paradas no alcanzarían la meta hoy.',
  },
);
