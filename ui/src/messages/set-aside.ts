import type { Reason } from '../contract';
import { words } from './words';

export const setAside = {
  why(reason: Reason, what: string | null): string {
    switch (reason) {
      case 'unreadable':
        return words.setAside.unreadable;
      case 'out_of_bounds':
        return what === null ? words.setAside.outOfBounds : words.setAside.outOfBoundsIn(what);
      case 'waiting':
        return words.setAside.waiting;
      case 'told_again':
        return words.setAside.toldAgain;
    }
  },
};
