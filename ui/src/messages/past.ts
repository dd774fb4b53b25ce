// What was changed, two walks side by side, and search.

import type { Band, FoundBy, HistoryLine, NewHead, Purpose, Stage } from '../contract';
import { common } from './common';
import { date, hundredths, number } from './format';
import { inBoth } from './language.svelte';
import { plantings } from './plantings';

const actsEn: Record<string, string> = {
  planting_added: 'Planting added',
  planting_edited: 'Planting edited',
  planting_removed: 'Planting removed',
  planting_restored: 'Planting brought back',
  walk_started: 'Walk begun',
  walk_finished: 'Walk finished',
  walk_reopened: 'Walk opened again',
  walk_edited: 'Walk date corrected',
  walk_removed: 'Walk removed',
  stop_added: 'Next stop',
  stop_placed: 'Stop placed',
  head_read: 'Head read',
  head_corrected: 'Head corrected',
  head_removed: 'Head taken out',
  undone: 'Taken back',
  file_imported: 'Brought in from a file',
  outlines_imported: 'Outline brought in',
  outline_removed: 'Outline taken out',
  photo_added: 'Photo added',
  photo_captioned: 'Photo captioned',
  photo_removed: 'Photo taken out',
  photo_restored: 'Photo brought back',
  observed: 'Ripe grain looked at',
  observation_corrected: 'Observation corrected',
  observation_removed: 'Observation taken out',
  terms_set: 'Harvest terms set',
  harvest_undone: 'Taken back',
};

const actsEs: Record<string, string> = {
  planting_added: 'Siembra agregada',
  planting_edited: 'Siembra editada',
  planting_removed: 'Siembra quitada',
  planting_restored: 'Siembra recuperada',
  walk_started: 'Recorrida empezada',
  walk_finished: 'Recorrida terminada',
  walk_reopened: 'Recorrida abierta de nuevo',
  walk_edited: 'Fecha de la recorrida corregida',
  walk_removed: 'Recorrida quitada',
  stop_added: 'Parada siguiente',
  stop_placed: 'Parada ubicada',
  head_read: 'Panoja leída',
  head_corrected: 'Panoja corregida',
  head_removed: 'Panoja quitada',
  undone: 'Deshecho',
  file_imported: 'Traído de un archivo',
  outlines_imported: 'Contorno traído',
  outline_removed: 'Contorno quitado',
  photo_added: 'Foto agregada',
  photo_captioned: 'Pie de foto escrito',
  photo_removed: 'Foto quitada',
  photo_restored: 'Foto recuperada',
  observed: 'Grano maduro observado',
  observation_corrected: 'Observación corregida',
  observation_removed: 'Observación quitada',
  terms_set: 'Condiciones de cosecha',
  harvest_undone: 'Deshecho',
};

const fieldsEn: Record<string, string> = {
  name: 'Name',
  farm: 'Farm',
  field: 'Field',
  hybrid: 'Hybrid',
  planted_on: 'Planted on',
  half_bloom_on: 'Half bloom on',
  purpose: 'Grown for',
  area: 'Area',
  station: 'Weather station',
  outline: 'Outline',
  place: 'Place',
  caption: 'Caption',
  finished: 'Finished',
  removed: 'Removed',
  number: 'Number',
};

const fieldsEs: Record<string, string> = {
  name: 'Nombre',
  farm: 'Finca',
  field: 'Lote',
  hybrid: 'Híbrido',
  planted_on: 'Sembrada el',
  half_bloom_on: 'Media floración el',
  purpose: 'Destino',
  area: 'Superficie',
  station: 'Estación del tiempo',
  outline: 'Contorno',
  place: 'Lugar',
  caption: 'Pie de foto',
  finished: 'Terminada',
  removed: 'Quitada',
  number: 'Número',
};

/** A value that the notebook gives as text, in the reader's words. */
function value(language: 'en' | 'es', field: string, text: string): string {
  const words = plantings[language];
  if (text === 'true') return language === 'en' ? 'yes' : 'sí';
  if (text === 'false') return 'no';
  if (field === 'purpose' && text in words.purpose) return words.purpose[text as Purpose].toLowerCase();
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return date(text);
  if (text.startsWith('{')) {
    try {
      const read = JSON.parse(text) as Record<string, unknown>;
      if (read['unit'] === 'acres' || read['unit'] === 'hectares') return words[read['unit']](Number(read['size']));
      if (typeof read['latitude'] === 'number' && typeof read['longitude'] === 'number')
        return `${number(read['latitude'], 5)}, ${number(read['longitude'], 5)}`;
    } catch {
      // Shown as it is.
    }
  }
  return text;
}

function head(language: 'en' | 'es', said: NewHead): string {
  const words = common[language];
  const reading = words.reading[said.head.reading].toLowerCase();
  const parts = [said.head.share === null ? reading : `${reading}, ${said.head.share} %`];
  parts.push(...said.flags.map((flag) => words.flag[flag].toLowerCase()));
  if (said.note) parts.push(`“${said.note}”`);
  return parts.join('; ');
}

function field(language: 'en' | 'es', line: HistoryLine & { what: 'field' }): string {
  const names = language === 'en' ? fieldsEn : fieldsEs;
  const name = names[line.field] ?? line.field.replaceAll('_', ' ');
  if (line.to === '' && line.was === null) return name;
  const to = line.to === '' ? (language === 'en' ? 'nothing' : 'nada') : value(language, line.field, line.to);
  if (line.was === null) return `${name}: ${to}`;
  const before = language === 'en' ? 'was' : 'antes';
  return `${name}: ${to} (${before}: ${value(language, line.field, line.was)})`;
}

function lineEn(line: HistoryLine): string {
  switch (line.what) {
    case 'field':
      return field('en', line);
    case 'walk':
      return line.scout ? `Walk of ${date(line.walked_on)}, ${line.scout}` : `Walk of ${date(line.walked_on)}`;
    case 'stop':
      return `Stop ${line.number}`;
    case 'head':
      return head('en', line.said);
    case 'photo':
      return 'A photo';
    case 'heads':
      return `${number(line.count)} heads`;
    case 'corrected':
      return `${head('en', line.to)} (was: ${head('en', line.was)})`;
    case 'taken_out':
      return line.said ? `Out: ${head('en', line.said)}` : 'A head, out';
    case 'brought_back':
      return line.said ? `Back: ${head('en', line.said)}` : 'A head, back';
  }
}

function lineEs(line: HistoryLine): string {
  switch (line.what) {
    case 'field':
      return field('es', line);
    case 'walk':
      return line.scout
        ? `Recorrida del ${date(line.walked_on)}, ${line.scout}`
        : `Recorrida del ${date(line.walked_on)}`;
    case 'stop':
      return `Parada ${line.number}`;
    case 'head':
      return head('es', line.said);
    case 'photo':
      return 'Una foto';
    case 'heads':
      return `${number(line.count)} panojas`;
    case 'corrected':
      return `${head('es', line.to)} (antes: ${head('es', line.was)})`;
    case 'taken_out':
      return line.said ? `Fuera: ${head('es', line.said)}` : 'Una panoja, fuera';
    case 'brought_back':
      return line.said ? `De vuelta: ${head('es', line.said)}` : 'Una panoja, de vuelta';
  }
}

/** A difference of shares in whole hundredths, with its sign. */
const signed = (share: number) => Math.sign(share) * hundredths(Math.abs(share));

function gainedEn(stage: Stage, band: Band): string {
  const at = stage === 'half_bloom' ? 'in bloom' : `at ${common.en.stage[stage]}`;
  const [low, mid, high] = [signed(band.low), signed(band.mid), signed(band.high)];
  if (low > 0) return `Of 100 heads, about ${mid} more have come to be ${at} (between ${low} and ${high}).`;
  if (high < 0)
    return `Of 100 heads, about ${-mid} fewer are ${at} (between ${-high} and ${-low}): the walks do not fit.`;
  const down = low < 0 ? `${-low} fewer` : 'none';
  const up = high > 0 ? `${high} more` : 'none';
  return `Whether more heads are ${at} cannot be told: anything from ${down} to ${up} in a hundred.`;
}

function gainedEs(stage: Stage, band: Band): string {
  const at = stage === 'half_bloom' ? 'en flor' : `en ${common.es.stage[stage]}`;
  const [low, mid, high] = [signed(band.low), signed(band.mid), signed(band.high)];
  if (low > 0) return `De cada 100 panojas, unas ${mid} más están ya ${at} (entre ${low} y ${high}).`;
  if (high < 0)
    return `De cada 100 panojas, unas ${-mid} menos están ${at} (entre ${-high} y ${-low}): las recorridas no encajan.`;
  const down = low < 0 ? `${-low} menos` : 'ninguna';
  const up = high > 0 ? `${high} más` : 'ninguna';
  return `No se puede decir si hay más panojas ${at}: de ${down} a ${up} de cada cien.`;
}

const byEn: Record<FoundBy, string> = { name: 'Name', hybrid: 'Hybrid', field: 'Field', farm: 'Farm' };
const byEs: Record<FoundBy, string> = { name: 'Nombre', hybrid: 'Híbrido', field: 'Lote', farm: 'Finca' };

export const past = inBoth(
  {
    open: 'History',
    title: 'History',
    of: (name: string) => `Everything that was changed about ${name}, the latest first.`,
    act: (act: string) => actsEn[act] ?? 'Something that a newer version wrote',
    line: lineEn,
    you: 'this device',
    someone: 'another device',
    by: (who: string, device: string) => `${who}, ${device}`,
    takenBack: 'taken back since',
    takeBack: 'Take this back',
    takeBackOf: (act: string, at: string) => `Take this back: ${act}, ${at}`,
    done: 'Taken back. It stands in the history, and can be taken back too.',
    older: 'Show older changes',
    end: 'That is where it begins.',
    empty: 'Nothing was changed yet.',
    openWalk: (on: string) => `To the walk of ${on}`,
    compareOpen: 'Compare walks',
    compareTitle: 'Compare two walks',
    compareNeeds: 'Two walks with heads are needed. Walk it once more, then come back.',
    firstWalk: 'One walk',
    secondWalk: 'The other walk',
    sameWalk: 'Choose two different walks.',
    earlierWalk: (on: string) => `Earlier: ${on}`,
    laterWalk: (on: string) => `Later: ${on}`,
    days: (days: number) => (days === 1 ? '1 day lies between them.' : `${number(days)} days lie between them.`),
    gainedTitle: 'What changed',
    gained: gainedEn,
    gainedNone: 'No share differs enough to speak of.',
    gainedNote: (level: number) =>
      `Each walk is taken by its own heads alone. Every span holds the truth ${number(level * 100)} times in a hundred.`,
    searchTitle: 'Search',
    search: 'Search notes, names, hybrids and scouts',
    searchHint: 'beginnings of words are enough',
    searchStart: 'Type a word, or how it begins. Accents and capitals do not matter.',
    searchNone: (text: string) => `Nothing begins with “${text}”. Try fewer letters or another word.`,
    found: (count: number) => (count === 1 ? '1 found' : `${number(count)} found`),
    plantings: 'Plantings',
    walks: 'Walks by scout',
    notes: 'Notes on heads',
    foundBy: byEn,
    noteAt: (planting: string, on: string, stop: number) => `${planting}, ${on}, stop ${stop}`,
    more: 'There is more than fits here. Type more letters.',
  },
  {
    open: 'Historial',
    title: 'Historial',
    of: (name: string) => `Todo lo que se cambió en ${name}, primero lo último.`,
    act: (act: string) => actsEs[act] ?? 'Algo que escribió una versión más nueva',
    line: lineEs,
    you: 'este aparato',
    someone: 'otro aparato',
    by: (who: string, device: string) => `${who}, ${device}`,
    takenBack: 'deshecho después',
    takeBack: 'Deshacer esto',
    takeBackOf: (act: string, at: string) => `Deshacer esto: ${act}, ${at}`,
    done: 'Deshecho. Queda en el historial y también se puede deshacer.',
    older: 'Mostrar cambios anteriores',
    end: 'Aquí empieza.',
    empty: 'Todavía no se cambió nada.',
    openWalk: (on: string) => `A la recorrida del ${on}`,
    compareOpen: 'Comparar recorridas',
    compareTitle: 'Comparar dos recorridas',
    compareNeeds: 'Hacen falta dos recorridas con panojas. Recórrala una vez más y vuelva.',
    firstWalk: 'Una recorrida',
    secondWalk: 'La otra recorrida',
    sameWalk: 'Elija dos recorridas distintas.',
    earlierWalk: (on: string) => `Antes: ${on}`,
    laterWalk: (on: string) => `Después: ${on}`,
    days: (days: number) => (days === 1 ? 'Hay 1 día entre ellas.' : `Hay ${number(days)} días entre ellas.`),
    gainedTitle: 'Qué cambió',
    gained: gainedEs,
    gainedNone: 'Ninguna parte difiere lo bastante para hablar de ella.',
    gainedNote: (level: number) =>
      `Cada recorrida se toma solo por sus panojas. Cada intervalo contiene la verdad ${number(level * 100)} de cada cien veces.`,
    searchTitle: 'Buscar',
    search: 'Buscar notas, nombres, híbridos y quién recorrió',
    searchHint: 'basta el comienzo de las palabras',
    searchStart: 'Escriba una palabra o su comienzo. No importan acentos ni mayúsculas.',
    searchNone: (text: string) => `Nada empieza por “${text}”. Pruebe con menos letras u otra palabra.`,
    found: (count: number) => (count === 1 ? '1 resultado' : `${number(count)} resultados`),
    plantings: 'Siembras',
    walks: 'Recorridas por persona',
    notes: 'Notas de panojas',
    foundBy: byEs,
    noteAt: (planting: string, on: string, stop: number) => `${planting}, ${on}, parada ${stop}`,
    more: 'Hay más de lo que cabe aquí. Escriba más letras.',
  },
);
