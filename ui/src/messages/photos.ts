import type { PhotoView } from '../contract';
import { common } from './common';
import { date, number } from './format';
import { inBoth } from './language.svelte';

/** What a photo shows, for who cannot see it. */
function showsEn(photo: PhotoView): string {
  const on = photo.walked_on === null ? '' : `, ${date(photo.walked_on)}`;
  const reading = photo.head
    ? ` (${common.en.reading[photo.head.reading].toLowerCase()}${photo.head.share === null ? '' : `, ${photo.head.share} %`})`
    : '';
  if (photo.head_number !== null) return `Head ${photo.head_number} of stop ${photo.stop_number ?? '?'}${reading}${on}`;
  if (photo.stop_number !== null) return `Stop ${photo.stop_number}${on}`;
  return 'The planting';
}

function showsEs(photo: PhotoView): string {
  const on = photo.walked_on === null ? '' : `, ${date(photo.walked_on)}`;
  const reading = photo.head
    ? ` (${common.es.reading[photo.head.reading].toLowerCase()}${photo.head.share === null ? '' : `, ${photo.head.share} %`})`
    : '';
  if (photo.head_number !== null)
    return `Panoja ${photo.head_number} de la parada ${photo.stop_number ?? '?'}${reading}${on}`;
  if (photo.stop_number !== null) return `Parada ${photo.stop_number}${on}`;
  return 'La siembra';
}

const mb = (bytes: number) => number(bytes / 1_000_000, bytes < 10_000_000 ? 1 : 0);

/** Photos of heads, stops and plantings, and the room they take. */
export const photos = inBoth(
  {
    title: 'Photos',
    ofPlanting: (name: string) => `Photos of ${name}`,
    count: (count: number) => (count === 0 ? 'Photos' : `Photos (${number(count)})`),
    none: 'No photos yet. Take one of the planting here; on a walk the camera button takes one of the stop, and Mark one of a head.',
    camera: 'Take a photo',
    choose: 'Choose a picture',
    ofStop: (stop: number) => `Photo of stop ${stop}`,
    ofHead: (head: number) => `Photo of head ${head}`,
    keeping: 'Keeping the photo',
    keptStop: (stop: number) => `The photo of stop ${stop} is kept.`,
    keptHead: (head: number) => `The photo of head ${head} is kept.`,
    kept: 'The photo is kept.',
    notKept: (why: string) => `The photo was not kept. ${why}`,
    offered: 'The picture knows where it was taken. Is that the place of this stop?',
    usePlace: 'Use its place',
    leavePlace: 'Leave it',
    placeUsed: 'The stop has the place of the picture.',
    shows: showsEn,
    alt: (photo: PhotoView) => (photo.caption === null ? showsEn(photo) : `${showsEn(photo)}: ${photo.caption}`),
    caption: 'What it shows',
    keepCaption: 'Keep these words',
    captionKept: 'Kept.',
    taken: (when: string) => `Taken ${when}`,
    notHere: 'This photo is not on this device.',
    onHub: 'The hub has it.',
    onlyHere: 'Only on this device so far.',
    fetch: 'Fetch it at the next exchange',
    fetching: 'It will be fetched at the next exchange.',
    remove: 'Remove this photo',
    removed: 'The photo was removed.',
    notTold: 'Place, owner and camera were taken out of the file before it was kept.',
    storage: 'Room for photos',
    takes: (photos: number, bytes: number) =>
      photos === 0 ? 'There are no photos on this device.' : `${number(photos)} photos take ${mb(bytes)} MB.`,
    onlyHereCount: (count: number) =>
      count === 0
        ? 'The hub holds all of them.'
        : `${number(count)} of them ${count === 1 ? 'is' : 'are'} on this device only and will not be freed.`,
    elsewhere: (count: number) =>
      `${number(count)} ${count === 1 ? 'photo is' : 'photos are'} not on this device; their small pictures may be.`,
    free: (bytes: number) => `Free ${mb(bytes)} MB`,
    nothingToFree: 'Nothing can be freed: only what the hub holds may go.',
    freed: 'The room is free. The photos are on the hub.',
  },
  {
    title: 'Fotos',
    ofPlanting: (name: string) => `Fotos de ${name}`,
    count: (count: number) => (count === 0 ? 'Fotos' : `Fotos (${number(count)})`),
    none: 'Todavía no hay fotos. Tome aquí una de la siembra; en una recorrida el botón de la cámara toma una de la parada, y Marcar una de una panoja.',
    camera: 'Tomar una foto',
    choose: 'Elegir una imagen',
    ofStop: (stop: number) => `Foto de la parada ${stop}`,
    ofHead: (head: number) => `Foto de la panoja ${head}`,
    keeping: 'Guardando la foto',
    keptStop: (stop: number) => `La foto de la parada ${stop} está guardada.`,
    keptHead: (head: number) => `La foto de la panoja ${head} está guardada.`,
    kept: 'La foto está guardada.',
    notKept: (why: string) => `La foto no se guardó. ${why}`,
    offered: 'La imagen sabe dónde se tomó. ¿Es ese el lugar de esta parada?',
    usePlace: 'Usar su lugar',
    leavePlace: 'Dejarlo',
    placeUsed: 'La parada tiene el lugar de la imagen.',
    shows: showsEs,
    alt: (photo: PhotoView) => (photo.caption === null ? showsEs(photo) : `${showsEs(photo)}: ${photo.caption}`),
    caption: 'Qué muestra',
    keepCaption: 'Guardar estas palabras',
    captionKept: 'Guardado.',
    taken: (when: string) => `Tomada ${when}`,
    notHere: 'Esta foto no está en este aparato.',
    onHub: 'El servidor la tiene.',
    onlyHere: 'Por ahora solo en este aparato.',
    fetch: 'Traerla en el próximo intercambio',
    fetching: 'Se traerá en el próximo intercambio.',
    remove: 'Quitar esta foto',
    removed: 'Se quitó la foto.',
    notTold: 'El lugar, el dueño y la cámara se quitaron del archivo antes de guardarlo.',
    storage: 'Espacio de las fotos',
    takes: (photos: number, bytes: number) =>
      photos === 0 ? 'No hay fotos en este aparato.' : `${number(photos)} fotos ocupan ${mb(bytes)} MB.`,
    onlyHereCount: (count: number) =>
      count === 0
        ? 'El servidor las tiene todas.'
        : `${number(count)} ${count === 1 ? 'está' : 'están'} solo en este aparato y no se ${count === 1 ? 'quitará' : 'quitarán'}.`,
    elsewhere: (count: number) =>
      `${number(count)} ${count === 1 ? 'foto no está' : 'fotos no están'} en este aparato; sus imágenes pequeñas pueden estar.`,
    free: (bytes: number) => `Liberar ${mb(bytes)} MB`,
    nothingToFree: 'No hay nada que liberar: solo puede irse lo que el servidor tiene.',
    freed: 'El espacio está libre. Las fotos están en el servidor.',
  },
);
