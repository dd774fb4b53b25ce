// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface SetAsideWords {
  readonly title: string;
  readonly intro: string;
  readonly nothing: string;
  readonly link: (count: number) => string;
  readonly linkAhead: (count: number) => string;
  readonly ownTitle: string;
  readonly ownText: (count: number) => string;
  readonly waitingTitle: (who: string) => string;
  readonly waitingText: string;
  readonly due: (at: string | number) => string;
  readonly again: string;
  readonly done: (count: number) => string;
  readonly thisDevice: string;
  readonly otherDevice: string;
  readonly restTitle: string;
  readonly made: (at: string | number) => string;
  readonly part: (place: number) => string;
  readonly unreadable: string;
  readonly outOfBounds: string;
  readonly outOfBoundsIn: (what: string) => string;
  readonly waiting: string;
  readonly toldAgain: string;
  readonly shown: (rows: number, total: number) => string;
}

export const setAside = {
  link: ['count'],
  linkAhead: ['count'],
  ownText: ['count'],
  waitingTitle: ['who'],
  due: ['at'],
  done: ['count'],
  made: ['at'],
  part: ['place'],
  outOfBoundsIn: ['what'],
  shown: ['rows', 'total'],
};
