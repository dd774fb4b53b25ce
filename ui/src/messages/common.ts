import type { Trouble } from '../call';
import type { Flag, Reading, Stage } from '../contract';
import { crewProblemsEn, crewProblemsEs } from './crew';
import { inBoth } from './language.svelte';

const stagesEn: Record<Stage, string> = {
  boot: 'boot',
  heading: 'heading',
  half_bloom: 'half bloom',
  milk: 'milk',
  soft_dough: 'soft dough',
  hard_dough: 'hard dough',
  black_layer: 'black layer',
};

// Under the stage line there is room for short words only.
const marksEn: Record<Stage, string> = stagesEn;

const stagesEs: Record<Stage, string> = {
  boot: 'embuche',
  heading: 'espigado',
  half_bloom: 'media floración',
  milk: 'grano lechoso',
  soft_dough: 'masa blanda',
  hard_dough: 'masa dura',
  black_layer: 'capa negra',
};

const marksEs: Record<Stage, string> = { ...stagesEs, half_bloom: 'floración', milk: 'lechoso' };

const readingsEn: Record<Reading, string> = {
  boot: 'Boot',
  emerging: 'Emerging',
  bloom: 'Bloom',
  liquid: 'Liquid',
  pliable: 'Pliable',
  dented: 'Dented',
  dark_spot: 'Dark spot',
};

const readingsEs: Record<Reading, string> = {
  boot: 'Embuche',
  emerging: 'Saliendo',
  bloom: 'En flor',
  liquid: 'Líquido',
  pliable: 'Moldeable',
  dented: 'Se marca',
  dark_spot: 'Punto oscuro',
};

const flagsEn: Record<Flag, string> = {
  moldy: 'Moldy',
  sheathed: 'Partly sheathed',
  bird_fed: 'Bird-fed',
  sterile_florets: 'Sterile florets',
  lodged_plant: 'Plant lodged',
};

const flagsEs: Record<Flag, string> = {
  moldy: 'Con moho',
  sheathed: 'En parte envainada',
  bird_fed: 'Comida por aves',
  sterile_florets: 'Flores estériles',
  lodged_plant: 'Planta acamada',
};

const problemsEn: Record<Trouble, string> = {
  ...crewProblemsEn,
  bad_input: 'That cannot be used as it is; nothing was stored.',
  not_found: 'This is not in the notebook any more. Go back and open it again.',
  conflict:
    'The notebook has changed in the meantime and this no longer fits. Go back and look again; nothing was stored.',
  disk_full: 'No room is left on the device. Free some; what was stored before is whole.',
  read_only: 'The notebook may be read but not written. Check the rights of its file and folder; nothing was stored.',
  unavailable: 'The notebook cannot be reached just now. Try again.',
  from_newer_app: 'This notebook was written by a newer Headwalk. Bring the app up to date; nothing was touched.',
  damaged: 'The notebook file is damaged. Headwalk can save what can still be read; the file itself is kept.',
  incomplete:
    'This copy of the notebook lacks changes that were shown as saved. Go on with what it holds, or restore a backup; nothing was touched.',
  stranger: 'This page belongs to an earlier start of the desk. Open the address that the desk printed.',
  stopped: 'Stopped; nothing was stored.',
  internal: 'Headwalk made a mistake. What was stored before is whole; try again.',
};

const problemsEs: Record<Trouble, string> = {
  ...crewProblemsEs,
  bad_input: 'Así no se puede usar; no se guardó nada.',
  not_found: 'Esto ya no está en el cuaderno. Vuelva atrás y ábralo de nuevo.',
  conflict: 'El cuaderno cambió entretanto y esto ya no encaja. Vuelva atrás y mire otra vez; no se guardó nada.',
  disk_full: 'No queda espacio en el aparato. Libere un poco; lo guardado antes está completo.',
  read_only:
    'El cuaderno se puede leer pero no escribir. Mire los permisos de su archivo y su carpeta; no se guardó nada.',
  unavailable: 'El cuaderno no responde en este momento. Intente de nuevo.',
  from_newer_app: 'Este cuaderno lo escribió un Headwalk más nuevo. Actualice la aplicación; no se tocó nada.',
  damaged:
    'El archivo del cuaderno está dañado. Headwalk puede rescatar lo que todavía se lee; el archivo se conserva.',
  incomplete:
    'A esta copia del cuaderno le faltan cambios que se mostraron como guardados. Siga con lo que tiene o restaure una copia de seguridad; no se tocó nada.',
  stranger: 'Esta página es de un arranque anterior. Abra la dirección que mostró el programa.',
  stopped: 'Detenido; no se guardó nada.',
  internal: 'Headwalk cometió un error. Lo guardado antes está completo; intente de nuevo.',
};

/** Words that many screens share. */
export const common = inBoth(
  {
    stage: stagesEn,
    mark: marksEn,
    reading: readingsEn,
    flag: flagsEn,
    problem: problemsEn,
    back: 'Back',
    done: 'Done',
    undo: 'Undo',
    cancel: 'Cancel',
    tryAgain: 'Try again',
    close: 'Close',
    loading: 'Reading the notebook',
    notSaid: 'not said',
    nowhere: 'There is no such screen.',
    toPlantings: 'To the plantings',
    mainTabs: 'Main screens',
    tabs: { plantings: 'Plantings', fortnight: 'Fortnight', more: 'More' },
    assumption: 'your assumption',
    changeAssumption: (what: string, value: string) => `${what}: ${value}, your assumption. Change it`,
    less: (what: string) => `Less: ${what}`,
    more: (what: string) => `More: ${what}`,
  },
  {
    stage: stagesEs,
    mark: marksEs,
    reading: readingsEs,
    flag: flagsEs,
    problem: problemsEs,
    back: 'Atrás',
    done: 'Listo',
    undo: 'Deshacer',
    cancel: 'Cancelar',
    tryAgain: 'Intentar de nuevo',
    close: 'Cerrar',
    loading: 'Leyendo el cuaderno',
    notSaid: 'sin indicar',
    nowhere: 'No existe esa pantalla.',
    toPlantings: 'A las siembras',
    mainTabs: 'Pantallas principales',
    tabs: { plantings: 'Siembras', fortnight: 'Quincena', more: 'Más' },
    assumption: 'su supuesto',
    changeAssumption: (what: string, value: string) => `${what}: ${value}, su supuesto. Cambiarlo`,
    less: (what: string) => `Menos: ${what}`,
    more: (what: string) => `Más: ${what}`,
  },
);
