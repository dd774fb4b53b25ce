import type { Head, UndoWhat } from '../contract';
import { common } from './common';
import { number } from './format';
import { inBoth } from './language.svelte';

function headEn(head: Head): string {
  const word = common.en.reading[head.reading].toLowerCase();
  return head.share === null ? word : `${word}, ${head.share} %`;
}

function headEs(head: Head): string {
  const word = common.es.reading[head.reading].toLowerCase();
  return head.share === null ? word : `${word}, ${head.share} %`;
}

const undoEn: Record<UndoWhat, string> = {
  head: 'Undo the last head',
  correction: 'Undo the last correction',
  removal: 'Undo the last removal',
  stop: 'Undo the last stop',
  photo: 'Undo the last photo',
};

const undoEs: Record<UndoWhat, string> = {
  head: 'Deshacer la última panoja',
  correction: 'Deshacer la última corrección',
  removal: 'Deshacer lo último quitado',
  stop: 'Deshacer la última parada',
  photo: 'Deshacer la última foto',
};

const undoneEn: Record<UndoWhat, string> = {
  head: 'The last head was taken back.',
  correction: 'The last correction was taken back.',
  removal: 'The removed head is back.',
  stop: 'The last stop was taken back.',
  photo: 'The last photo was taken back.',
};

const undoneEs: Record<UndoWhat, string> = {
  head: 'Se deshizo la última panoja.',
  correction: 'Se deshizo la última corrección.',
  removal: 'La panoja quitada está de vuelta.',
  stop: 'Se deshizo la última parada.',
  photo: 'Se deshizo la última foto.',
};

/** The walk screen. */
export const walk = inBoth(
  {
    where: (stop: number, stops: number, heads: number) =>
      `Stop ${stop} of ${stops} · ${heads} ${heads === 1 ? 'head' : 'heads'} in all`,
    finish: 'Finish',
    reopen: 'Reopen',
    finished: 'This walk is finished. Reopen it to add or change heads.',
    dateCannotBe: (first: string, last: string) =>
      `The date of this walk cannot be right, so it gives no answer. Its heads are safe; choose a date from ${first} to ${last}.`,
    rightDate: 'Date of this walk',
    correctDate: 'Correct the date',
    tooLarge: (stops: number, heads: number) =>
      `This walk has more than ${number(stops)} stops or ${number(heads)} heads, so it gives no answer. Its heads are all here.`,
    key: 'Squeeze key',
    advice: 'What more walking would buy',
    headsHere: (stop: number) => `Heads of stop ${stop}`,
    earlierStop: 'Earlier stop',
    laterStop: 'Later stop',
    headAt: (number: number, head: Head) => `Head ${number}: ${headEn(head)}`,
    marked: 'marked',
    corrected: 'corrected',
    saving: 'not saved yet',
    unsaved: 'not saved',
    share: 'How far down the head',
    shareValue: (percent: number) => `${percent} percent from the top`,
    shareNone: 'not said yet',
    percent: (percent: number) => `${percent} %`,
    readings: 'What the top of the head shows',
    explain: (reading: string) => `What is ${reading}?`,
    hintBoth: 'Slide down the head, then tap what its top shows.',
    hintShare: 'Now slide down the head to where that ends.',
    hintReading: 'Now tap what the top shows: that saves it.',
    sameAgain: (head: Head) => `Same again: ${headEn(head)}`,
    sameAgainNone: 'Same again',
    doneEditing: (number: number) => `Done with head ${number}`,
    editing: (number: number) => `Changing head ${number}: slide or tap, each change is saved.`,
    undo: undoEn,
    undone: undoneEn,
    mark: 'Mark',
    markTitle: (number: number) => `Mark head ${number}`,
    note: 'Note on this head',
    nextStop: 'Next stop',
    removeHead: 'Remove head',
    removed: 'The head was removed.',
    notSaved: (heads: number, why: string) =>
      heads === 0 ? `Not saved yet. ${why}` : `${heads} ${heads === 1 ? 'head is' : 'heads are'} not saved. ${why}`,
    unlike: 'Unlike the earlier walks, so they are left out. Right planting? Hail? Mixed hybrids?',
    expected: 'From earlier walks:',
    whichHead: (paces: number, every: number, side: 'left' | 'right') =>
      `${paces} paces on. Then every ${every === 1 ? '' : `${ordinalEn(every)} `}plant on your ${side}: the head your hand meets first, eyes off it.`,
    stillUnsaved: 'The walk can be finished once all its heads are saved or removed.',
    nothingKept: 'No head was read, so no walk was kept.',
    saved: (head: Head) => `Saved: ${headEn(head)}`,
    options: 'What more walking is expected to buy',
    option: (stops: number, heads: number) => `${stops} more ${stops === 1 ? 'stop' : 'stops'} of ${heads}`,
    optionGains: (width: string, chance: number, minutes: string) =>
      `band ${width} stages wide, stage ${chance} in a hundred sure, ${minutes} min`,
    now: (width: string, chance: number) => `Now: band ${width} stages wide, stage ${chance} in a hundred sure.`,
    meets: 'meets the target',
    noOptions: 'With no head read there is nothing to reckon from.',
    restsOn: 'Reckoned with',
  },
  {
    where: (stop: number, stops: number, heads: number) =>
      `Parada ${stop}/${stops} · ${heads} ${heads === 1 ? 'panoja' : 'panojas'}`,
    finish: 'Terminar',
    reopen: 'Reabrir',
    finished: 'Esta recorrida está terminada. Reábrala para agregar o cambiar panojas.',
    dateCannotBe: (first: string, last: string) =>
      `La fecha de esta recorrida no puede ser correcta, así que no da respuesta. Sus panojas están a salvo; elija una fecha del ${first} al ${last}.`,
    rightDate: 'Fecha de esta recorrida',
    correctDate: 'Corregir la fecha',
    tooLarge: (stops: number, heads: number) =>
      `Esta recorrida tiene más de ${number(stops)} paradas o ${number(heads)} panojas, así que no da respuesta. Sus panojas están todas aquí.`,
    key: 'Clave del apretón',
    advice: 'Qué se ganaría con más recorrido',
    headsHere: (stop: number) => `Panojas de la parada ${stop}`,
    earlierStop: 'Parada anterior',
    laterStop: 'Parada siguiente',
    headAt: (number: number, head: Head) => `Panoja ${number}: ${headEs(head)}`,
    marked: 'con marca',
    corrected: 'corregida',
    saving: 'aún sin guardar',
    unsaved: 'sin guardar',
    share: 'Hasta dónde de la panoja',
    shareValue: (percent: number) => `${percent} por ciento desde la punta`,
    shareNone: 'aún sin indicar',
    percent: (percent: number) => `${percent} %`,
    readings: 'Qué muestra la punta de la panoja',
    explain: (reading: string) => `¿Qué es ${reading}?`,
    hintBoth: 'Deslice por la panoja y toque lo que muestra la punta.',
    hintShare: 'Ahora deslice por la panoja hasta donde termina.',
    hintReading: 'Ahora toque lo que muestra la punta: así se guarda.',
    sameAgain: (head: Head) => `Otra igual: ${headEs(head)}`,
    sameAgainNone: 'Otra igual',
    doneEditing: (number: number) => `Lista la panoja ${number}`,
    editing: (number: number) => `Panoja ${number}: deslice o toque; se guarda al momento.`,
    undo: undoEs,
    undone: undoneEs,
    mark: 'Marcar',
    markTitle: (number: number) => `Marcar la panoja ${number}`,
    note: 'Nota sobre esta panoja',
    nextStop: 'Otra parada',
    removeHead: 'Quitar panoja',
    removed: 'Se quitó la panoja.',
    notSaved: (heads: number, why: string) =>
      heads === 0
        ? `Aún sin guardar. ${why}`
        : `${heads === 1 ? '1 panoja no está guardada' : `${heads} panojas no están guardadas`}. ${why}`,
    unlike: 'No concuerda con las anteriores, que quedan fuera. ¿Siembra correcta? ¿Granizo? ¿Mezcla?',
    expected: 'Por recorridas anteriores:',
    whichHead: (paces: number, every: number, side: 'left' | 'right') =>
      `${paces} pasos más. Luego una de cada ${every} plantas a su ${side === 'left' ? 'izquierda' : 'derecha'}: la panoja que su mano toque primero, sin mirarla.`,
    stillUnsaved: 'La recorrida se puede terminar cuando todas sus panojas estén guardadas o quitadas.',
    nothingKept: 'No se leyó ninguna panoja, así que no se guardó la recorrida.',
    saved: (head: Head) => `Guardada: ${headEs(head)}`,
    options: 'Qué se espera ganar con más recorrido',
    option: (stops: number, heads: number) =>
      stops === 1 ? `1 parada más de ${heads}` : `${stops} paradas más de ${heads}`,
    optionGains: (width: string, chance: number, minutes: string) =>
      `banda de ${width} etapas, etapa segura en ${chance} de cada cien, ${minutes} min`,
    now: (width: string, chance: number) => `Ahora: banda de ${width} etapas, etapa segura en ${chance} de cada cien.`,
    meets: 'cumple la meta',
    noOptions: 'Sin ninguna panoja leída no hay de dónde calcular.',
    restsOn: 'Calculado con',
  },
);

function ordinalEn(value: number): string {
  const rule = new Intl.PluralRules('en', { type: 'ordinal' }).select(value);
  const ending = { one: 'st', two: 'nd', few: 'rd', other: 'th', zero: 'th', many: 'th' }[rule];
  return `${value}${ending}`;
}
