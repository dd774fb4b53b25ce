import type { Direction } from '../place/ground';
import type { PositionState } from '../place/position.svelte';
import { number } from './format';
import { inBoth } from './language.svelte';

const towardEn: Record<Direction, string> = {
  n: 'north',
  ne: 'northeast',
  e: 'east',
  se: 'southeast',
  s: 'south',
  sw: 'southwest',
  w: 'west',
  nw: 'northwest',
};

const towardEs: Record<Direction, string> = {
  n: 'norte',
  ne: 'noreste',
  e: 'este',
  se: 'sureste',
  s: 'sur',
  sw: 'suroeste',
  w: 'oeste',
  nw: 'noroeste',
};

type Unknown = Record<Exclude<PositionState, 'known'>, string>;

const positionEn: Unknown = {
  off: 'The position is not being looked for.',
  looking: 'Looking for your position',
  refused: 'This app may not see your position. Allow it in the settings of the device; walking works without.',
  unavailable: 'No position to be had here. Walking works without.',
};

const positionEs: Unknown = {
  off: 'No se busca la posición.',
  looking: 'Buscando su posición',
  refused: 'La aplicación no puede ver su posición. Permítalo en los ajustes del aparato; se puede recorrer sin ella.',
  unavailable: 'Aquí no hay posición. Se puede recorrer sin ella.',
};

const legEn = (count: number, on: string, back: string) =>
  count === 0 ? '' : `${Math.abs(count)} ${count > 0 ? on : back}`;

/** Outlines, stops on the ground, and where to stop next. */
export const places = inBoth(
  {
    position: positionEn,
    meters: (meters: number) => `${number(meters)} m`,
    feet: (feet: number) => `${number(feet)} ft`,
    known: (good: string) => `Your position is good to ${good}.`,
    old: (good: string, minutes: number) =>
      `Your position is ${number(minutes)} ${minutes === 1 ? 'minute' : 'minutes'} old (good to ${good} then).`,
    northLetter: 'N',
    whereAmI: 'Which planting am I at?',
    at: (name: string) => `You are at ${name}`,
    near: (name: string, length: string) => `${name} is ${length} from here`,
    mayBeAt: (name: string, good: string) => `You may be at ${name} (position good to ${good} only)`,
    nothingNear: 'No planting with a known place is near.',
    mapTitle: 'Where the walks stopped',
    drawn: (walks: number, stops: number) =>
      stops === 0
        ? 'The outline of the planting. No stop has a place yet.'
        : `${number(stops)} ${stops === 1 ? 'stop' : 'stops'} of ${number(walks)} ${walks === 1 ? 'walk' : 'walks'}, the latest darkest.`,
    noOutline: 'No outline and no placed stop yet.',
    whereToStop: 'Where to stop',
    nextIs: (stop: number, stops: number) => `Next: stop ${stop} of ${stops}`,
    wayTo: (stop: number, length: string, paces: number, toward: Direction) =>
      `Stop ${stop}: ${length} (${number(paces)} paces) ${towardEn[toward]}`,
    youAreThere: (stop: number) => `You are at stop ${stop}.`,
    allDone: 'All planned stops are walked. The dashed places are in reserve.',
    planDrawn: (stops: number, spare: number) =>
      `The planting from above with ${number(stops)} planned stops in walking order and ${number(spare)} places in reserve.`,
    legend: 'Numbers: planned stops. A check: walked. Dots: where you stopped. Dashed: in reserve. Cross: you.',
    walkLength: (length: string, edge: string) => `About ${length} from the first to the last, ${edge} off every edge.`,
    noPlan: 'No plan inside the outline:',
    pacedIntro: (rows: number, paces: number) =>
      `No outline here, so count from the corner where you enter: ${number(rows)} rows across, ${number(paces)} paces along them.`,
    stop: (at: number) => `Stop ${at}:`,
    paced: (rows: number, paces: number) =>
      [legEn(rows, 'rows on', 'rows back'), legEn(paces, 'paces up the row', 'paces back down the row')]
        .filter((part) => part !== '')
        .join(', '),
    rows: 'Rows across',
    paces: 'Paces along the rows',
    planStops: 'Stops of a plan',
    planEdge: 'Kept off the edges',
    whyBalanced:
      'The places are drawn by chance and spread evenly, so that no one picks the good corner. The same walk keeps its plan.',
    toWalk: 'Back to the walk',
    bringIn: 'Bring in the outline from a map file',
    bringOther: 'Bring in another outline',
    removeOutline: 'Remove this outline',
    removeSure: 'Remove the outline? Stops and walks stay.',
    removeYes: 'Remove',
    keep: 'Keep it',
    outlineRemoved: 'The outline was removed.',
    fileTitle: 'Bring in outlines of fields',
    fileIntro:
      'A map file with fields as polygons: GeoJSON, KML or KMZ, or a shapefile. You see which outline is whose before anything is stored.',
    fileShape:
      'Of a shapefile choose the zip, or the .shp together with its .dbf and its .prj, which says what its numbers mean.',
    holds: (name: string, outlines: number) =>
      `${name} holds ${number(outlines)} ${outlines === 1 ? 'outline' : 'outlines'}`,
    noTargets: 'There is no planting yet to give an outline to. Add the plantings first.',
    nameless: (at: number) => `Outline ${at}`,
    corners: (corners: string) => `${corners} points`,
    already: 'Already in the notebook just so.',
    replaces: 'Takes the place of the outline that is there.',
    refused: 'Cannot be used:',
    whose: 'Outline of',
    nobodys: 'leave out',
    field: (name: string) => `Field ${name}`,
    store: (count: number) => `Store ${number(count)} ${count === 1 ? 'outline' : 'outlines'}`,
    nothingToStore: 'Nothing new to store: give an outline to a planting, or choose another file.',
    stored: (count: number) => `Stored ${number(count)} ${count === 1 ? 'outline' : 'outlines'}.`,
    stopPlaced: (good: string) => `placed ±${good}`,
    stopUnplaced: 'no place',
  },
  {
    position: positionEs,
    meters: (meters: number) => `${number(meters)} m`,
    feet: (feet: number) => `${number(feet)} pies`,
    known: (good: string) => `Su posición es buena hasta ${good}.`,
    old: (good: string, minutes: number) =>
      `Su posición es de hace ${number(minutes)} ${minutes === 1 ? 'minuto' : 'minutos'} (buena hasta ${good}).`,
    northLetter: 'N',
    whereAmI: '¿En qué siembra estoy?',
    at: (name: string) => `Está en ${name}`,
    near: (name: string, length: string) => `${name} está a ${length} de aquí`,
    mayBeAt: (name: string, good: string) => `Puede que esté en ${name} (posición buena solo hasta ${good})`,
    nothingNear: 'No hay cerca ninguna siembra con lugar conocido.',
    mapTitle: 'Dónde pararon las recorridas',
    drawn: (walks: number, stops: number) =>
      stops === 0
        ? 'El contorno de la siembra. Ninguna parada tiene lugar todavía.'
        : `${number(stops)} ${stops === 1 ? 'parada' : 'paradas'} de ${number(walks)} ${walks === 1 ? 'recorrida' : 'recorridas'}, la última más oscura.`,
    noOutline: 'Todavía sin contorno ni paradas con lugar.',
    whereToStop: 'Dónde parar',
    nextIs: (stop: number, stops: number) => `Sigue: parada ${stop} de ${stops}`,
    wayTo: (stop: number, length: string, paces: number, toward: Direction) =>
      `Parada ${stop}: ${length} (${number(paces)} pasos) al ${towardEs[toward]}`,
    youAreThere: (stop: number) => `Está en la parada ${stop}.`,
    allDone: 'Todas las paradas del plan están hechas. Las punteadas quedan de reserva.',
    planDrawn: (stops: number, spare: number) =>
      `La siembra desde arriba con ${number(stops)} paradas planeadas en orden y ${number(spare)} lugares de reserva.`,
    legend: 'Números: paradas planeadas. Marca: hecha. Puntos: dónde paró. Punteado: de reserva. Cruz: usted.',
    walkLength: (length: string, edge: string) => `Unos ${length} de la primera a la última, a ${edge} de todo borde.`,
    noPlan: 'No hay plan dentro del contorno:',
    pacedIntro: (rows: number, paces: number) =>
      `Aquí no hay contorno: cuente desde la esquina por donde entra, ${number(rows)} surcos a lo ancho y ${number(paces)} pasos a lo largo.`,
    stop: (at: number) => `Parada ${at}:`,
    paced: (rows: number, paces: number) =>
      [legEn(rows, 'surcos más', 'surcos atrás'), legEn(paces, 'pasos surco arriba', 'pasos surco abajo')]
        .filter((part) => part !== '')
        .join(', '),
    rows: 'Surcos a lo ancho',
    paces: 'Pasos a lo largo del surco',
    planStops: 'Paradas de un plan',
    planEdge: 'Lejos de los bordes',
    whyBalanced:
      'Los lugares salen al azar y bien repartidos, para que nadie elija la esquina buena. La misma recorrida conserva su plan.',
    toWalk: 'Volver a la recorrida',
    bringIn: 'Traer el contorno de un archivo de mapa',
    bringOther: 'Traer otro contorno',
    removeOutline: 'Quitar este contorno',
    removeSure: '¿Quitar el contorno? Las paradas y recorridas quedan.',
    removeYes: 'Quitar',
    keep: 'Dejarlo',
    outlineRemoved: 'Se quitó el contorno.',
    fileTitle: 'Traer contornos de lotes',
    fileIntro:
      'Un archivo de mapa con los lotes como polígonos: GeoJSON, KML o KMZ, o un shapefile. Verá de quién es cada contorno antes de guardar nada.',
    fileShape:
      'De un shapefile elija el zip, o el .shp junto con su .dbf y su .prj, que dice qué significan sus números.',
    holds: (name: string, outlines: number) =>
      `${name} contiene ${number(outlines)} ${outlines === 1 ? 'contorno' : 'contornos'}`,
    noTargets: 'Todavía no hay siembras a las que dar un contorno. Agregue antes las siembras.',
    nameless: (at: number) => `Contorno ${at}`,
    corners: (corners: string) => `${corners} puntos`,
    already: 'Ya está así en el cuaderno.',
    replaces: 'Toma el lugar del contorno que hay.',
    refused: 'No se puede usar:',
    whose: 'Contorno de',
    nobodys: 'dejar fuera',
    field: (name: string) => `Lote ${name}`,
    store: (count: number) => `Guardar ${number(count)} ${count === 1 ? 'contorno' : 'contornos'}`,
    nothingToStore: 'Nada nuevo que guardar: dé un contorno a una siembra o elija otro archivo.',
    stored: (count: number) => (count === 1 ? 'Se guardó 1 contorno.' : `Se guardaron ${number(count)} contornos.`),
    stopPlaced: (good: string) => `lugar ±${good}`,
    stopUnplaced: 'sin lugar',
  },
);
