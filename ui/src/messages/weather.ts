import { date, number } from './format';
import { inBoth } from './language.svelte';

/** Weather stations: what they hold, files brought in, and days typed in. */
export const weather = inBoth(
  {
    title: 'Weather',
    empty:
      'No weather yet. Without it there are no dates: bring in a daily file of the nearest station, or type in highs and lows.',
    holds: (days: number, first: string, last: string) => `${number(days)} days, ${date(first)} to ${date(last)}`,
    filled: (days: number) => `${number(days)} days filled in from their neighbors, by rule`,
    gap: (from: string, to: string) => `No weather from ${date(from)} to ${date(to)}`,
    moreGaps: (count: number) => `and ${number(count)} more gaps`,
    refused: (why: string) => `Not usable as it is: ${why}`,
    bringIn: 'Bring in a weather file',
    typeIn: 'Type in a day',
    fileIntro:
      'A CSV with date, high_f and low_f (or high_c, low_c), and rain_in or rain_mm, humidity and station if you have them; or a GHCN-Daily file. Past years of the station are what the days ahead are taken from.',
    stationForFile: 'Station, where the file names none',
    review: (station: string, rows: number, first: string, last: string) =>
      `${station}: ${number(rows)} days, ${date(first)} to ${date(last)}`,
    already: (count: number) => `${number(count)} of them are here already`,
    foundTitle: (count: number) => `What the checks found (${number(count)})`,
    store: 'Store this weather',
    stored: 'The weather is stored; every outlook uses it now.',
    back: 'See the stations',
    station: 'Station',
    day: 'Day',
    high: 'High',
    low: 'Low',
    rain: 'Rain (may stay empty)',
    keep: 'Keep this day',
    kept: (when: string, station: string) => `${when} is kept for ${station}.`,
    needNumber: 'Give the high and the low as numbers.',
    lowAboveHigh: 'The low is above the high. Check both.',
    needStation: 'Give the station a name: the village, or "my gauge".',
    usedHere: (station: string) => `Weather of ${station}`,
    chosenBy: {
      planting: 'named by the planting',
      field: 'chosen for the field',
      nearest: (km: number) => `the nearest, ${number(km)} km off`,
      only: 'the only one held',
    },
  },
  {
    title: 'Tiempo',
    empty:
      'Todavía no hay tiempo. Sin él no hay fechas: traiga un archivo diario de la estación más cercana, o escriba máximas y mínimas.',
    holds: (days: number, first: string, last: string) => `${number(days)} días, del ${date(first)} al ${date(last)}`,
    filled: (days: number) => `${number(days)} días completados con sus vecinos, por regla`,
    gap: (from: string, to: string) => `Sin tiempo del ${date(from)} al ${date(to)}`,
    moreGaps: (count: number) => `y ${number(count)} huecos más`,
    refused: (why: string) => `No se puede usar así: ${why}`,
    bringIn: 'Traer un archivo del tiempo',
    typeIn: 'Escribir un día',
    fileIntro:
      'Un CSV con date, high_f y low_f (o high_c, low_c), y rain_in o rain_mm, humidity y station si los tiene; o un archivo GHCN-Daily. De los años pasados de la estación se toman los días que vienen.',
    stationForFile: 'Estación, si el archivo no nombra ninguna',
    review: (station: string, rows: number, first: string, last: string) =>
      `${station}: ${number(rows)} días, del ${date(first)} al ${date(last)}`,
    already: (count: number) => `${number(count)} de ellos ya están aquí`,
    foundTitle: (count: number) => `Lo que hallaron las revisiones (${number(count)})`,
    store: 'Guardar este tiempo',
    stored: 'El tiempo está guardado; todos los pronósticos ya lo usan.',
    back: 'Ver las estaciones',
    station: 'Estación',
    day: 'Día',
    high: 'Máxima',
    low: 'Mínima',
    rain: 'Lluvia (puede quedar vacía)',
    keep: 'Guardar este día',
    kept: (when: string, station: string) => `${when} queda guardado para ${station}.`,
    needNumber: 'Dé la máxima y la mínima como números.',
    lowAboveHigh: 'La mínima es mayor que la máxima. Revise las dos.',
    needStation: 'Dé un nombre a la estación: el pueblo, o «mi pluviómetro».',
    usedHere: (station: string) => `Tiempo de ${station}`,
    chosenBy: {
      planting: 'nombrada por la siembra',
      field: 'elegida para el lote',
      nearest: (km: number) => `la más cercana, a ${number(km)} km`,
      only: 'la única que hay',
    },
  },
);
