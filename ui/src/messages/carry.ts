// Files out of the notebook and in again, and the field sheet.

import type { Paper } from '../contract';
import { number } from './format';
import { inBoth, spoken } from './language.svelte';

type Kind = 'notebook' | 'heads' | 'plantings' | 'weather' | 'stops';
type Said = { title: string; text: string };

const kindsEn: Record<Kind, Said> = {
  notebook: {
    title: 'The whole notebook',
    text: 'One zip file with everything: to keep, or to move to a new phone.',
  },
  heads: { title: 'Heads', text: 'A CSV table, one head a row.' },
  plantings: { title: 'Plantings', text: 'A CSV table, one planting a row.' },
  weather: { title: 'Weather', text: 'A CSV table, one day a row.' },
  stops: { title: 'Stops on a map', text: 'GeoJSON, for a map program.' },
};

const kindsEs: Record<Kind, Said> = {
  notebook: {
    title: 'El cuaderno entero',
    text: 'Un archivo zip con todo: para guardar o para pasar a otro teléfono.',
  },
  heads: { title: 'Panojas', text: 'Una tabla CSV, una panoja por fila.' },
  plantings: { title: 'Siembras', text: 'Una tabla CSV, una siembra por fila.' },
  weather: { title: 'Tiempo', text: 'Una tabla CSV, un día por fila.' },
  stops: { title: 'Paradas en un mapa', text: 'GeoJSON, para un programa de mapas.' },
};

const papers: Record<Paper, string> = { letter: 'Letter', a4: 'A4' };

/** A size as people say it. */
function size(bytes: number): string {
  if (bytes < 1000) return `${number(bytes)} bytes`;
  if (bytes < 1_000_000) return `${number(bytes / 1000)} KB`;
  return `${number(bytes / 1_000_000, 1)} MB`;
}

function moment(iso: string): string {
  return new Intl.DateTimeFormat(spoken.locale, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}

const s = (count: number) => (count === 1 ? '' : 's');

export const carry = inBoth(
  {
    title: 'Files out',
    which: 'What should go out?',
    kinds: kindsEn,
    make: 'Make the file',
    making: 'Making the file',
    made: (name: string, bytes: number) => `${name} is ready: ${size(bytes)}.`,
    save: 'Save it',
    share: 'Hand it to another app',
    shareRefused: 'The other app did not take it. Save it instead.',
    savedAt: 'It lies at',
    private: 'The file holds names, places and notes. Give it to people who may have them.',
    inTitle: 'Bring in a notebook',
    inIntro:
      'Choose the zip file that the other phone made under Files out. You see what it holds before anything is stored. What this notebook has already stays.',
    madeAt: (name: string, at: string) => `${name}, made ${moment(at)}`,
    holds: (changes: number, devices: number) =>
      `${number(changes)} change${s(changes)} of ${number(devices)} device${s(devices)}`,
    fresh: (plantings: number, walks: number, heads: number) =>
      `New here: ${number(plantings)} planting${s(plantings)}, ${number(walks)} walk${s(walks)}, ${number(heads)} head${s(heads)}`,
    photos: (count: number) => `${number(count)} photo${s(count)}`,
    parted: 'This device and its copy went on apart; both parts are kept.',
    settings: 'The settings of the other phone come along, because this notebook is empty.',
    bringIn: 'Bring it in',
    broughtIn: 'The notebook is in.',
    nothingNew: 'Everything in this file is here already; there is nothing to bring in.',
    sheetOpen: 'Field sheet for the grower',
    sheet: 'Field sheet',
    sheetIntro:
      'One page to print or send: where the planting stands and how sure that is, what comes next, and what is not known.',
    sheetNoWalk: 'Not walked yet: the sheet will say so, and show dates from weather alone.',
    sheetLanguage: 'Language of the sheet',
    paper: 'Paper',
    papers,
    sheetMake: 'Make the field sheet',
  },
  {
    title: 'Sacar archivos',
    which: '¿Qué quiere sacar?',
    kinds: kindsEs,
    make: 'Hacer el archivo',
    making: 'Haciendo el archivo',
    made: (name: string, bytes: number) => `${name} está listo: ${size(bytes)}.`,
    save: 'Guardarlo',
    share: 'Pasarlo a otra aplicación',
    shareRefused: 'La otra aplicación no lo aceptó. Guárdelo.',
    savedAt: 'Está en',
    private: 'El archivo lleva nombres, lugares y notas. Déselo solo a quien pueda tenerlos.',
    inTitle: 'Traer un cuaderno',
    inIntro:
      'Elija el archivo zip que el otro teléfono hizo en Sacar archivos. Verá qué contiene antes de que se guarde nada. Lo que este cuaderno ya tiene se queda.',
    madeAt: (name: string, at: string) => `${name}, hecho el ${moment(at)}`,
    holds: (changes: number, devices: number) =>
      `${number(changes)} ${changes === 1 ? 'cambio' : 'cambios'} de ${number(devices)} ${devices === 1 ? 'aparato' : 'aparatos'}`,
    fresh: (plantings: number, walks: number, heads: number) =>
      `Nuevo aquí: ${number(plantings)} ${plantings === 1 ? 'siembra' : 'siembras'}, ${number(walks)} ${walks === 1 ? 'recorrida' : 'recorridas'}, ${number(heads)} ${heads === 1 ? 'panoja' : 'panojas'}`,
    photos: (count: number) => `${number(count)} foto${s(count)}`,
    parted: 'Este aparato y su copia siguieron por separado; se conservan ambas partes.',
    settings: 'Vienen también los ajustes del otro teléfono, porque este cuaderno está vacío.',
    bringIn: 'Traerlo',
    broughtIn: 'El cuaderno está aquí.',
    nothingNew: 'Todo lo de este archivo ya está aquí; no hay nada que traer.',
    sheetOpen: 'Hoja de campo para el agricultor',
    sheet: 'Hoja de campo',
    sheetIntro:
      'Una página para imprimir o enviar: dónde está la siembra y con qué seguridad, qué viene después y qué no se sabe.',
    sheetNoWalk: 'Todavía sin recorrer: la hoja lo dirá y mostrará fechas solo del tiempo.',
    sheetLanguage: 'Idioma de la hoja',
    paper: 'Papel',
    papers: { ...papers, letter: 'Carta' },
    sheetMake: 'Hacer la hoja de campo',
  },
);
