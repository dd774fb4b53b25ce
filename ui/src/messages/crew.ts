import type { Field, Role } from '../contract';
import { words } from './words';

export const crew = {
  youAre: (role: Role): string => words.crew.youAreA[role],
  /** What waits to be given; `changes` is not 0. */
  waits(changes: number, heads: number, photos: number): string {
    if (photos === 0) return heads > 0 ? words.crew.headsWait(heads) : words.crew.changesWait(changes);
    return heads > 0 ? words.crew.headsAndPhotosWait(heads, photos) : words.crew.changesAndPhotosWait(changes, photos);
  },
  minutes(minutes: number): string {
    if (minutes < 60) return words.crew.lastsMinutes(minutes);
    return minutes < 1440 ? words.crew.lastsHours(minutes / 60) : words.crew.lastsDays(minutes / 1440);
  },
  openInvitation: (role: Role, ends: number): string => words.crew.openInvitationAs(words.crew.role[role], ends),
  leftOf(who: string | null, own: boolean): string {
    if (own) return words.crew.leftOfThis;
    return who === null ? words.crew.leftOfOther : words.crew.leftOfOne(who);
  },
  walksOf(walks: number, scouts: readonly string[]): string {
    return scouts.length > 0 ? words.crew.walksBy(walks, scouts.join(', ')) : words.crew.walks(walks);
  },
  /** Names of the fields of a planting. */
  get field(): Record<Field, string> {
    return words.past.fields;
  },
};
