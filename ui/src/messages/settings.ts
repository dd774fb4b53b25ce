import type { Theme, Units } from '../contract';
import { inBoth } from './language.svelte';

const unitsEn: Record<Units, string> = { us: 'Acres, °F, bushels', metric: 'Hectares, °C, tonnes' };
const unitsEs: Record<Units, string> = { us: 'Acres, °F, bushels', metric: 'Hectáreas, °C, toneladas' };
const themesEn: Record<Theme, string> = { system: 'As the phone', light: 'Light', dark: 'Dark' };
const themesEs: Record<Theme, string> = { system: 'Como el teléfono', light: 'Claro', dark: 'Oscuro' };

/** Settings, and the list of further screens. */
export const settings = inBoth(
  {
    title: 'Settings',
    scout: 'Your name, as scout',
    scoutHint: 'goes with every walk you start',
    language: 'Language',
    languages: { en: 'English', es: 'Español' },
    units: 'Units',
    unit: unitsEn,
    hand: 'Hand that holds the phone',
    right: 'Right',
    left: 'Left',
    theme: 'Colors',
    themes: themesEn,
    answersTitle: 'What counts as sure enough',
    level: 'Every band holds the truth, times in a hundred',
    targetChance: 'Stage is sure from, chances in a hundred',
    targetWidth: 'or band no wider than, stages',
    costsTitle: 'What walking costs',
    perStop: 'Minutes to reach one more stop',
    perHead: 'Minutes to read one head',
    headsPerStop: 'Heads usually read at a stop',
    assumptionNote: 'is an assumption of yours. Answers rest on it; change it wherever it stands.',
    keepFailed: 'The setting was not kept.',
    moreTitle: 'More',
    about: 'About',
    aboutText:
      'Everything stays on this device and works without signal. Typeface: Source Sans 3, under the SIL Open Font License 1.1.',
    fontLicence: 'Its licence',
  },
  {
    title: 'Ajustes',
    scout: 'Su nombre',
    scoutHint: 'acompaña cada recorrida que empieza',
    language: 'Idioma',
    languages: { en: 'English', es: 'Español' },
    units: 'Unidades',
    unit: unitsEs,
    hand: 'Mano que sostiene el teléfono',
    right: 'Derecha',
    left: 'Izquierda',
    theme: 'Colores',
    themes: themesEs,
    answersTitle: 'Qué cuenta como bastante seguro',
    level: 'Cada banda contiene la verdad, veces de cada cien',
    targetChance: 'La etapa es segura desde, de cada cien',
    targetWidth: 'o banda no más ancha que, etapas',
    costsTitle: 'Qué cuesta recorrer',
    perStop: 'Minutos para llegar a una parada más',
    perHead: 'Minutos para leer una panoja',
    headsPerStop: 'Panojas que suele leer por parada',
    assumptionNote: 'es un supuesto suyo. Las respuestas se apoyan en él; cámbielo donde lo vea.',
    keepFailed: 'No se guardó el ajuste.',
    moreTitle: 'Más',
    about: 'Acerca de',
    aboutText:
      'Todo queda en este aparato y funciona sin señal. Tipografía: Source Sans 3, con la licencia SIL Open Font License 1.1.',
    fontLicence: 'Su licencia',
  },
);
