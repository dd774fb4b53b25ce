import { number } from './format';
import { inBoth, spoken } from './language.svelte';

const size = (megabytes: number) => `${number(megabytes, 1)} MB`;

/** A moment, as a scout would say it. */
function moment(iso: string): string {
  return new Intl.DateTimeFormat(spoken.locale, { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}

/** Backups, checks, and a notebook that does not open. */
export const safekeeping = inBoth(
  {
    title: 'Backup',
    intro:
      'Everything you record lies in one file on this device. A backup is a whole copy of it, checked before it counts.',
    backUp: 'Make a backup now',
    backingUp: 'Copying the notebook and checking the copy',
    made: (name: string) => `Backup made and checked: ${name}`,
    last: 'Last backup',
    none: 'There is no backup on this device yet.',
    older: (count: number) => `${number(count)} older, the oldest make room for new ones`,
    at: moment,
    size,
    where: 'Where it lies',
    checkTitle: 'Is the notebook whole?',
    check: 'Check the notebook now',
    checking: 'Reading every change of the notebook',
    checked: (when: string, changes: number) =>
      `Checked ${moment(when)}: all ${number(changes)} changes are as they were written.`,
    neverChecked: 'Not checked yet. It is checked once a day by itself, and after the phone was cut off.',
    mended: 'Something shown did not agree with what was recorded. It was made anew from the record; nothing is lost.',
    photosWhole: (photos: number) =>
      `${number(photos)} ${photos === 1 ? 'photo is' : 'photos are'} as ${photos === 1 ? 'it was' : 'they were'} taken.`,
    photosDamaged: (photos: number) =>
      `${number(photos)} ${photos === 1 ? 'photo was' : 'photos were'} damaged and set aside, not deleted. In a crew, exchange with the hub: what it holds comes back.`,
    photosMissing: (photos: number) =>
      `${number(photos)} ${photos === 1 ? 'photo' : 'photos'} that ${photos === 1 ? 'was' : 'were'} on this device ${photos === 1 ? 'is' : 'are'} gone. Exchange with the hub, or bring in an archive that has ${photos === 1 ? 'it' : 'them'}.`,
    restoreTitle: 'Go back to a backup',
    restoreIntro: 'Choose one. Copy backups off this device from time to time: a lost phone takes its backups with it.',
    restoreOf: (when: string) => `The backup of ${when} takes the place of the notebook.`,
    restoreMeans:
      'The notebook as it is now is set aside and kept, nothing is deleted. What you recorded since that backup is not in it; in a crew it comes back with the next exchange, as far as the hub has it.',
    restore: 'Go back to this backup',
    restoreNot: 'Keep the notebook as it is',
    restoring: 'Checking the backup and putting it in place',
    restored: (changes: number) =>
      `The backup is in place, with ${number(changes)} ${changes === 1 ? 'change' : 'changes'}.`,
    restoredAside: 'The notebook before it is kept here:',
    restoredTitle: 'The backup is in place',
    restoreInstead: 'Or go back to a backup',
    restoreInsteadMeans:
      'Saving what can be read keeps more: it takes from the backups too. Go back to a backup where that did not work. An archive can be brought in afterwards, under More.',
    salvageTitle: 'This notebook was saved from a damaged file',
    kept: (changes: number, heads: number) =>
      `Kept: ${number(changes)} ${changes === 1 ? 'change' : 'changes'}, ${number(heads)} ${heads === 1 ? 'head' : 'heads'} among them.`,
    lostNone: 'Nothing is known to be lost.',
    lost: (changes: number) => `Lost: ${number(changes)} ${changes === 1 ? 'change' : 'changes'}.`,
    lostBetween: (changes: number, from: string, to: string) =>
      `Lost: ${number(changes)} ${changes === 1 ? 'change' : 'changes'}, recorded between ${moment(from)} and ${moment(to)}. Look at the walks of that time.`,
    endUnknown: 'The newest heads may be missing too. Look at your last walk.',
    unproved: (changes: number) =>
      `${number(changes)} ${changes === 1 ? 'change reads well but could' : 'changes read well but could'} not be proved.`,
    fromBackup: (changes: number) => `${number(changes)} came from a backup.`,
    settingsLost: 'The settings are as on the first day; set them again.',
    setAside: 'The damaged file is kept here:',
    goOn: 'Go on to the plantings',
    openAgain: 'Try again',
    opening: 'Opening the notebook',
    salvage: 'Save what can be read',
    goOnWithThis: 'Go on with what is here',
    salvaging: 'Reading the damaged file and writing a new one',
    trouble: {
      damaged: {
        title: 'The notebook is damaged',
        text: 'Its file cannot be read in full. Headwalk can carry every change that can still be read into a new notebook.',
        steps: [
          'The damaged file is set aside and kept, never deleted.',
          'What only a backup still has is taken from there.',
          'You are told what was kept and what was lost.',
        ],
      },
      incomplete: {
        title: 'This notebook lacks saved changes',
        text: 'It does not hold everything that was shown as saved. It may be a copy made while the notebook was open, or an earlier one. Nothing was touched.',
        steps: [
          'If you copied or restored files by hand, put back all of them, then try again.',
          'Or go on with what is here. Backups on this device are used too, and you are told what is missing.',
          'In a crew, the next exchange brings back what the hub holds.',
        ],
      },
      from_newer_app: {
        title: 'This notebook is from a newer Headwalk',
        text: 'This version does not know all that the notebook may hold, so it has not touched it.',
        steps: ['Bring Headwalk up to date.', 'Then open it again: everything is there.'],
      },
      read_only: {
        title: 'The notebook cannot be written to',
        text: 'Its file or folder may be read only, so nothing you record would be kept.',
        steps: [
          'Check that the card or disk is not locked.',
          'Check the rights of the file and of its folder.',
          'Then try again. What was stored before is whole.',
        ],
      },
      disk_full: {
        title: 'The device is full',
        text: 'There is no room left to open the notebook. What was stored before is whole.',
        steps: ['Remove photos, videos or apps that you do not need.', 'Then try again.'],
      },
      unavailable: {
        title: 'The notebook cannot be opened',
        text: 'Another window of Headwalk may have it, or its folder cannot be reached.',
        steps: ['Close other windows of Headwalk.', 'Then try again. What was stored before is whole.'],
      },
    },
  },
  {
    title: 'Copia de seguridad',
    intro:
      'Todo lo que anota está en un archivo de este aparato. Una copia de seguridad lo copia entero, y se revisa antes de darla por buena.',
    backUp: 'Hacer una copia ahora',
    backingUp: 'Copiando el cuaderno y revisando la copia',
    made: (name: string) => `Copia hecha y revisada: ${name}`,
    last: 'Última copia',
    none: 'Todavía no hay ninguna copia en este aparato.',
    older: (count: number) => `${number(count)} anteriores; las más viejas dejan lugar a las nuevas`,
    at: moment,
    size,
    where: 'Dónde está',
    checkTitle: '¿Está entero el cuaderno?',
    check: 'Revisar el cuaderno ahora',
    checking: 'Leyendo cada cambio del cuaderno',
    checked: (when: string, changes: number) =>
      `Revisado ${moment(when)}: los ${number(changes)} cambios están como se escribieron.`,
    neverChecked: 'Sin revisar todavía. Se revisa solo una vez al día, y cuando el teléfono se apagó de golpe.',
    mended: 'Algo en pantalla no coincidía con lo anotado. Se rehizo a partir de lo anotado; no se perdió nada.',
    photosWhole: (photos: number) =>
      photos === 1 ? '1 foto está como se tomó.' : `${number(photos)} fotos están como se tomaron.`,
    photosDamaged: (photos: number) =>
      `${photos === 1 ? '1 foto estaba dañada y se apartó' : `${number(photos)} fotos estaban dañadas y se apartaron`}, sin borrarse. En un equipo, sincronice: vuelve lo que haya en el servidor.`,
    photosMissing: (photos: number) =>
      `${photos === 1 ? 'Falta 1 foto que estaba' : `Faltan ${number(photos)} fotos que estaban`} en este aparato. Sincronice, o traiga un archivo del cuaderno que ${photos === 1 ? 'la' : 'las'} tenga.`,
    restoreTitle: 'Volver a una copia',
    restoreIntro: 'Elija una. Saque copias de este aparato de vez en cuando: un teléfono perdido se lleva sus copias.',
    restoreOf: (when: string) => `La copia de ${when} toma el lugar del cuaderno.`,
    restoreMeans:
      'El cuaderno como está ahora se aparta y se conserva; no se borra nada. Lo que anotó después de esa copia no está en ella; en un equipo vuelve al sincronizar, hasta donde lo tenga el servidor.',
    restore: 'Volver a esta copia',
    restoreNot: 'Dejar el cuaderno como está',
    restoring: 'Revisando la copia y poniéndola en su lugar',
    restored: (changes: number) =>
      `La copia está en su lugar, con ${number(changes)} ${changes === 1 ? 'cambio' : 'cambios'}.`,
    restoredAside: 'El cuaderno anterior se conserva aquí:',
    restoredTitle: 'La copia está en su lugar',
    restoreInstead: 'O volver a una copia',
    restoreInsteadMeans:
      'Rescatar lo que se pueda leer conserva más: también toma de las copias. Vuelva a una copia si eso no sirvió. Un archivo del cuaderno se puede traer después, en Más.',
    salvageTitle: 'Este cuaderno se rescató de un archivo dañado',
    kept: (changes: number, heads: number) =>
      `Conservado: ${number(changes)} ${changes === 1 ? 'cambio' : 'cambios'}, entre ellos ${number(heads)} ${heads === 1 ? 'panoja' : 'panojas'}.`,
    lostNone: 'Que se sepa, no se perdió nada.',
    lost: (changes: number) => `Perdido: ${number(changes)} ${changes === 1 ? 'cambio' : 'cambios'}.`,
    lostBetween: (changes: number, from: string, to: string) =>
      `Perdido: ${number(changes)} ${changes === 1 ? 'cambio' : 'cambios'}, entre ${moment(from)} y ${moment(to)}. Mire las recorridas de ese momento.`,
    endUnknown: 'También pueden faltar las panojas más nuevas. Mire su última recorrida.',
    unproved: (changes: number) =>
      `${number(changes)} ${changes === 1 ? 'cambio se lee bien pero no se pudo' : 'cambios se leen bien pero no se pudieron'} comprobar.`,
    fromBackup: (changes: number) => `${number(changes)} ${changes === 1 ? 'vino' : 'vinieron'} de una copia.`,
    settingsLost: 'Los ajustes están como el primer día; póngalos de nuevo.',
    setAside: 'El archivo dañado se conserva aquí:',
    goOn: 'Seguir a las siembras',
    openAgain: 'Intentar de nuevo',
    opening: 'Abriendo el cuaderno',
    salvage: 'Rescatar lo que se pueda leer',
    goOnWithThis: 'Seguir con lo que hay aquí',
    salvaging: 'Leyendo el archivo dañado y escribiendo uno nuevo',
    trouble: {
      damaged: {
        title: 'El cuaderno está dañado',
        text: 'Su archivo no se puede leer entero. Headwalk puede pasar a un cuaderno nuevo cada cambio que todavía se lea.',
        steps: [
          'El archivo dañado se aparta y se conserva, nunca se borra.',
          'Lo que solo está en una copia se toma de ahí.',
          'Se le dirá qué se conservó y qué se perdió.',
        ],
      },
      incomplete: {
        title: 'A este cuaderno le faltan cambios guardados',
        text: 'No tiene todo lo que se mostró como guardado. Puede ser una copia hecha mientras el cuaderno estaba abierto, o una anterior. No se tocó nada.',
        steps: [
          'Si copió o restauró archivos a mano, ponga todos en su lugar e intente de nuevo.',
          'O siga con lo que hay aquí. También se usan las copias de este aparato, y se le dirá qué falta.',
          'En un equipo, al sincronizar vuelve lo que tenga el servidor.',
        ],
      },
      from_newer_app: {
        title: 'Este cuaderno es de un Headwalk más nuevo',
        text: 'Esta versión no conoce todo lo que el cuaderno puede contener, así que no lo tocó.',
        steps: ['Actualice Headwalk.', 'Después ábralo de nuevo: está todo.'],
      },
      read_only: {
        title: 'No se puede escribir en el cuaderno',
        text: 'Su archivo o su carpeta solo se pueden leer, y nada de lo que anote quedaría guardado.',
        steps: [
          'Mire que la tarjeta o el disco no estén bloqueados.',
          'Mire los permisos del archivo y de su carpeta.',
          'Después intente de nuevo. Lo guardado antes está completo.',
        ],
      },
      disk_full: {
        title: 'El aparato está lleno',
        text: 'No queda lugar para abrir el cuaderno. Lo guardado antes está completo.',
        steps: ['Quite fotos, videos o aplicaciones que no necesite.', 'Después intente de nuevo.'],
      },
      unavailable: {
        title: 'El cuaderno no se puede abrir',
        text: 'Puede tenerlo otra ventana de Headwalk, o no se llega a su carpeta.',
        steps: ['Cierre otras ventanas de Headwalk.', 'Después intente de nuevo. Lo guardado antes está completo.'],
      },
    },
  },
);
