import type { Direction } from '../place/ground';
import { words } from './words';

export const places = {
  wayTo: (stop: number, length: string, paces: number, toward: Direction): string =>
    words.places.wayToStop(stop, length, paces, words.places.toward[toward]),
  /** The way from the stop before, by rows and paces. */
  paced(rows: number, paces: number): string {
    const { rowsOn, rowsBack, pacesUp, pacesDown } = words.places;
    const parts: string[] = [];
    if (rows !== 0) parts.push(rows > 0 ? rowsOn(rows) : rowsBack(-rows));
    if (paces !== 0) parts.push(paces > 0 ? pacesUp(paces) : pacesDown(-paces));
    return parts.join(', ');
  },
};
