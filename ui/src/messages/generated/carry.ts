// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface CarryWords {
  readonly title: string;
  readonly which: string;
  readonly kindsTitle: {
    readonly notebook: string;
    readonly heads: string;
    readonly plantings: string;
    readonly weather: string;
    readonly stops: string;
  };
  readonly kindsText: {
    readonly notebook: string;
    readonly heads: string;
    readonly plantings: string;
    readonly weather: string;
    readonly stops: string;
  };
  readonly make: string;
  readonly making: string;
  readonly madeFile: (name: string, size: string) => string;
  readonly bytes: (bytes: number) => string;
  readonly kilobytes: (kilobytes: number) => string;
  readonly megabytes: (megabytes: number) => string;
  readonly save: string;
  readonly share: string;
  readonly shareRefused: string;
  readonly savedAt: string;
  readonly private: string;
  readonly inTitle: string;
  readonly inIntro: string;
  readonly madeAt: (name: string, at: string | number) => string;
  readonly holds: (changes: number, devices: number) => string;
  readonly fresh: (plantings: number, walks: number, heads: number) => string;
  readonly photos: (count: number) => string;
  readonly parted: string;
  readonly settings: string;
  readonly bringIn: string;
  readonly broughtIn: string;
  readonly nothingNew: string;
  readonly sheetOpen: string;
  readonly sheet: string;
  readonly sheetIntro: string;
  readonly sheetNoWalk: string;
  readonly sheetLanguage: string;
  readonly paper: string;
  readonly papers: {
    readonly letter: string;
    readonly a4: string;
  };
  readonly sheetMake: string;
}

export const carry = {
  madeFile: ['name', 'size'],
  bytes: ['bytes'],
  kilobytes: ['kilobytes'],
  megabytes: ['megabytes'],
  madeAt: ['name', 'at'],
  holds: ['changes', 'devices'],
  fresh: ['plantings', 'walks', 'heads'],
  photos: ['count'],
};
