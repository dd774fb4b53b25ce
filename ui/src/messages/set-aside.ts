import type { Reason } from '../contract';
import { number } from './format';
import { inBoth, spoken } from './language.svelte';

/** A moment of another device's clock, which may be years ahead. */
function moment(iso: string): string {
  return new Intl.DateTimeFormat(spoken.locale, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}

const entriesEn = (count: number) => `${number(count)} ${count === 1 ? 'entry' : 'entries'}`;
const entriesEs = (count: number) => `${number(count)} ${count === 1 ? 'anotación' : 'anotaciones'}`;

/** Entries that do not count, and why. */
export const setAside = inBoth(
  {
    title: 'Set aside',
    intro: 'These entries do not count. They are kept as they came, and everything else counts as before.',
    nothing: 'Nothing is set aside: every entry counts.',
    link: (count: number) => `Set aside: ${entriesEn(count)}`,
    linkAhead: (count: number) => `Not counted on other devices: ${entriesEn(count)}`,
    ownTitle: 'The clock of this device was ahead',
    ownText: (count: number) =>
      `${entriesEn(count)} of this device ${count === 1 ? 'counts' : 'count'} here, but wait on every other device. Check the clock, then record ${count === 1 ? 'it' : 'them'} again.`,
    waitingTitle: (who: string) => `Waiting: ${who}`,
    waitingText: 'Made while the clock of that device was ahead. Each counts by itself when its time comes.',
    due: (at: string) => `Counts from ${moment(at)}`,
    again: 'Record again now',
    done: (count: number) =>
      count === 1
        ? '1 entry was recorded again and counts now.'
        : `${number(count)} entries were recorded again and count now.`,
    thisDevice: 'this device',
    otherDevice: 'another device',
    restTitle: 'Why the others do not count',
    made: (at: string) => `Recorded ${moment(at)}`,
    part: (place: number) => `part ${number(place)} of it`,
    why: (reason: Reason, what: string | null): string => {
      switch (reason) {
        case 'unreadable':
          return 'This version of the app cannot read it. Update the app; what a newer one can read counts then.';
        case 'out_of_bounds':
          return `A value in it cannot be right${what === null ? '' : ` (${what})`}. Ask for it to be recorded again.`;
        case 'waiting':
          return 'It waits until its time comes.';
        case 'told_again':
          return 'Its time was too far ahead. It was recorded again and counts there, so nothing is missing.';
      }
    },
    shown: (rows: number, total: number) => `The latest ${number(rows)} of ${number(total)} are shown.`,
  },
  {
    title: 'Apartado',
    intro: 'Estas anotaciones no cuentan. Se guardan como llegaron, y todo lo demás cuenta igual que antes.',
    nothing: 'No hay nada apartado: todas las anotaciones cuentan.',
    link: (count: number) => `Apartado: ${entriesEs(count)}`,
    linkAhead: (count: number) => `No cuentan en otros aparatos: ${entriesEs(count)}`,
    ownTitle: 'El reloj de este aparato estaba adelantado',
    ownText: (count: number) =>
      `${entriesEs(count)} de este aparato ${count === 1 ? 'cuenta' : 'cuentan'} aquí, pero ${count === 1 ? 'espera' : 'esperan'} en todos los demás. Revise el reloj y luego ${count === 1 ? 'anótela' : 'anótelas'} de nuevo.`,
    waitingTitle: (who: string) => `En espera: ${who}`,
    waitingText: 'Se hicieron con el reloj de ese aparato adelantado. Cada una cuenta sola cuando llega su hora.',
    due: (at: string) => `Cuenta desde ${moment(at)}`,
    again: 'Anotar de nuevo ahora',
    done: (count: number) =>
      count === 1
        ? 'Se anotó de nuevo 1 anotación y ya cuenta.'
        : `Se anotaron de nuevo ${number(count)} anotaciones y ya cuentan.`,
    thisDevice: 'este aparato',
    otherDevice: 'otro aparato',
    restTitle: 'Por qué las demás no cuentan',
    made: (at: string) => `Anotado ${moment(at)}`,
    part: (place: number) => `parte ${number(place)}`,
    why: (reason: Reason, what: string | null): string => {
      switch (reason) {
        case 'unreadable':
          return 'Esta versión de la aplicación no la puede leer. Actualice la aplicación; lo que una nueva pueda leer contará entonces.';
        case 'out_of_bounds':
          return `Un valor no puede ser correcto${what === null ? '' : ` (${what})`}. Pida que se anote de nuevo.`;
        case 'waiting':
          return 'Espera hasta que llegue su hora.';
        case 'told_again':
          return 'Su hora estaba demasiado adelantada. Se anotó de nuevo y cuenta allí; no falta nada.';
      }
    },
    shown: (rows: number, total: number) => `Se muestran las últimas ${number(rows)} de ${number(total)}.`,
  },
);
