import type { PhotoView } from '../contract';
import { number } from './format';
import { headText } from './walk';
import { words } from './words';

/** What a photo shows, for who cannot see it. */
function shows(photo: PhotoView): string {
  if (photo.stop_number === null && photo.head_number === null) return words.photos.thePlanting;
  const what = photo.head_number === null ? words.photos.stopShown(photo.stop_number ?? 0) : headShown(photo);
  return photo.walked_on === null ? what : words.photos.shownOn(what, photo.walked_on);
}

function headShown(photo: PhotoView): string {
  const what = words.photos.headShown(photo.head_number ?? 0, String(photo.stop_number ?? '?'));
  return photo.head ? words.photos.shownReading(what, headText(photo.head)) : what;
}

const megabytes = (bytes: number) => number(bytes / 1_000_000, bytes < 10_000_000 ? 1 : 0);

export const photos = {
  shows,
  alt: (photo: PhotoView): string =>
    photo.caption === null ? shows(photo) : words.photos.captioned(shows(photo), photo.caption),
  takes: (photos: number, bytes: number): string =>
    photos === 0 ? words.photos.noPhotos : words.photos.photosTake(photos, megabytes(bytes)),
  free: (bytes: number): string => words.photos.freeMegabytes(megabytes(bytes)),
};
