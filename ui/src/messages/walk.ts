import type { Head } from '../contract';
import { words } from './words';

/** A reading with its share, in the middle of a line. */
export function headText(head: Head): string {
  const reading = words.common.reading[head.reading].toLowerCase();
  return head.share === null ? reading : words.walk.headShare(reading, head.share);
}

export const walk = {
  headAt: (number: number, head: Head): string => words.walk.headNumber(number, headText(head)),
  sameAgain: (head: Head): string => words.walk.sameAgainAs(headText(head)),
  saved: (head: Head): string => words.walk.savedHead(headText(head)),
};
