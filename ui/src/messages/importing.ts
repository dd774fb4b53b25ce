import { number } from './format';
import { inBoth } from './language.svelte';

/** Bringing in a head file. */
export const importing = inBoth(
  {
    title: 'Bring in a head file or plantings',
    intro:
      'Heads: a CSV file in UTF-8 with a header: planting, walked_on, stop, reading, share; latitude, longitude, scout, note and flags if you have them. You see what it holds before anything is stored.',
    introPlantings:
      'Or a list of plantings: planting, hybrid, planted_on, purpose; field, station, acres or hectares, and half_bloom_on if you have them.',
    choose: 'Choose a file',
    chooseOther: 'Choose another file',
    reading: (name: string) => `Reading ${name}`,
    notText: (name: string) =>
      `${name} is not UTF-8 text. Save it as CSV in UTF-8 and choose it again; nothing was stored.`,
    unreadable: (name: string) => `${name} could not be read from the device. Choose it again; nothing was stored.`,
    holds: (name: string) => `What ${name} holds`,
    good: (heads: number, stops: number, walks: number) =>
      `${number(heads)} good ${heads === 1 ? 'head' : 'heads'} at ${number(stops)} ${stops === 1 ? 'stop' : 'stops'} of ${number(walks)} ${walks === 1 ? 'walk' : 'walks'}`,
    already: (count: number) =>
      `${number(count)} of them ${count === 1 ? 'is' : 'are'} in the notebook already and will not be stored twice`,
    newPlantings: (count: number) => `${number(count)} new ${count === 1 ? 'planting' : 'plantings'}`,
    refused: (count: number) => `${number(count)} ${count === 1 ? 'row is' : 'rows are'} refused`,
    firstRefused: (count: number) => `The first ${count} of them:`,
    line: (line: number) => `Line ${number(line)}`,
    store: (heads: number) => `Store ${number(heads)} ${heads === 1 ? 'head' : 'heads'}`,
    swappedTitle: 'Are latitude and longitude swapped?',
    swapped: (rows: number) =>
      `${number(rows)} ${rows === 1 ? 'row is' : 'rows are'} no place or far from your fields as written, and ${rows === 1 ? 'fits' : 'fit'} with the two swapped. Nothing is stored before you answer.`,
    swap: 'Swap them',
    asWritten: 'Keep them as written',
    willSwap: 'Latitude and longitude are swapped as this file is stored.',
    staysAsWritten: 'Latitude and longitude are stored as written.',
    askAgain: 'Answer again',
    nothingNew: 'Nothing in this file is new; there is nothing to store.',
    goodPlantings: (count: number) => `${number(count)} ${count === 1 ? 'planting' : 'plantings'}`,
    updatedPlantings: (count: number) =>
      `${number(count)} ${count === 1 ? 'is' : 'are'} here already and will be brought up to date`,
    listsPlantings: 'What the file does not mention stays as it is.',
    storePlantings: 'Store the plantings',
    storedPlantings: (added: number, updated: number) =>
      `${number(added)} ${added === 1 ? 'planting' : 'plantings'} added, ${number(updated)} brought up to date.`,
    stop: 'Stop',
    storing: 'Storing: all of it or nothing',
    stored: (heads: number) => `Stored ${number(heads)} ${heads === 1 ? 'head' : 'heads'}.`,
    storedRefused: (count: number) =>
      `${number(count)} refused ${count === 1 ? 'row was' : 'rows were'} left out; the file itself is unchanged.`,
    see: 'See the plantings',
  },
  {
    title: 'Traer panojas o siembras',
    intro:
      'Panojas: un archivo CSV en UTF-8 con encabezado: planting, walked_on, stop, reading, share; y latitude, longitude, scout, note y flags si los tiene. Verá lo que contiene antes de guardar nada.',
    introPlantings:
      'O una lista de siembras: planting, hybrid, planted_on, purpose; y field, station, acres o hectares y half_bloom_on si los tiene.',
    choose: 'Elegir un archivo',
    chooseOther: 'Elegir otro archivo',
    reading: (name: string) => `Leyendo ${name}`,
    notText: (name: string) =>
      `${name} no es texto UTF-8. Guárdelo como CSV en UTF-8 y elíjalo de nuevo; no se guardó nada.`,
    unreadable: (name: string) => `${name} no se pudo leer del aparato. Elíjalo de nuevo; no se guardó nada.`,
    holds: (name: string) => `Qué contiene ${name}`,
    good: (heads: number, stops: number, walks: number) =>
      `${number(heads)} ${heads === 1 ? 'panoja buena' : 'panojas buenas'} en ${number(stops)} ${stops === 1 ? 'parada' : 'paradas'} de ${number(walks)} ${walks === 1 ? 'recorrida' : 'recorridas'}`,
    already: (count: number) =>
      `${number(count)} ya ${count === 1 ? 'está' : 'están'} en el cuaderno y no se ${count === 1 ? 'guardará' : 'guardarán'} dos veces`,
    newPlantings: (count: number) => `${number(count)} ${count === 1 ? 'siembra nueva' : 'siembras nuevas'}`,
    refused: (count: number) => `${number(count)} ${count === 1 ? 'fila rechazada' : 'filas rechazadas'}`,
    firstRefused: (count: number) => `Las primeras ${count}:`,
    line: (line: number) => `Línea ${number(line)}`,
    store: (heads: number) => `Guardar ${number(heads)} ${heads === 1 ? 'panoja' : 'panojas'}`,
    swappedTitle: '¿Están cambiadas la latitud y la longitud?',
    swapped: (rows: number) =>
      `${number(rows)} ${rows === 1 ? 'fila no es un lugar o queda' : 'filas no son un lugar o quedan'} lejos de sus lotes como ${rows === 1 ? 'está escrita' : 'están escritas'}, y ${rows === 1 ? 'encaja' : 'encajan'} con las dos cambiadas. No se guarda nada antes de que responda.`,
    swap: 'Cambiarlas',
    asWritten: 'Dejarlas como están',
    willSwap: 'Al guardar este archivo se cambian la latitud y la longitud.',
    staysAsWritten: 'La latitud y la longitud se guardan como están escritas.',
    askAgain: 'Responder de nuevo',
    nothingNew: 'Nada en este archivo es nuevo; no hay nada que guardar.',
    goodPlantings: (count: number) => `${number(count)} ${count === 1 ? 'siembra' : 'siembras'}`,
    updatedPlantings: (count: number) =>
      `${number(count)} ya ${count === 1 ? 'está y se pondrá' : 'están y se pondrán'} al día`,
    listsPlantings: 'Lo que el archivo no menciona queda como está.',
    storePlantings: 'Guardar las siembras',
    storedPlantings: (added: number, updated: number) =>
      `${number(added)} ${added === 1 ? 'siembra agregada' : 'siembras agregadas'}, ${number(updated)} al día.`,
    stop: 'Detener',
    storing: 'Guardando: todo o nada',
    stored: (heads: number) => (heads === 1 ? 'Se guardó 1 panoja.' : `Se guardaron ${number(heads)} panojas.`),
    storedRefused: (count: number) =>
      `${number(count)} ${count === 1 ? 'fila rechazada quedó' : 'filas rechazadas quedaron'} fuera; el archivo no cambió.`,
    see: 'Ver las siembras',
  },
);
