// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface WalkWords {
  readonly where: (stop: number, stops: number, heads: number) => string;
  readonly finish: string;
  readonly reopen: string;
  readonly finished: string;
  readonly dateCannotBe: (first: string, last: string) => string;
  readonly rightDate: string;
  readonly correctDate: string;
  readonly tooLarge: (stops: number, heads: number) => string;
  readonly key: string;
  readonly advice: string;
  readonly headsHere: (stop: number) => string;
  readonly earlierStop: string;
  readonly laterStop: string;
  readonly headShare: (reading: string, share: number) => string;
  readonly headNumber: (number: number, head: string) => string;
  readonly marked: string;
  readonly corrected: string;
  readonly saving: string;
  readonly unsaved: string;
  readonly share: string;
  readonly shareValue: (percent: number) => string;
  readonly shareNone: string;
  readonly percent: (percent: number) => string;
  readonly readings: string;
  readonly explain: (reading: string) => string;
  readonly hintBoth: string;
  readonly hintShare: string;
  readonly hintReading: string;
  readonly sameAgainAs: (head: string) => string;
  readonly sameAgainNone: string;
  readonly doneEditing: (number: number) => string;
  readonly editing: (number: number) => string;
  readonly undo: {
    readonly head: string;
    readonly correction: string;
    readonly removal: string;
    readonly stop: string;
    readonly photo: string;
  };
  readonly undone: {
    readonly head: string;
    readonly correction: string;
    readonly removal: string;
    readonly stop: string;
    readonly photo: string;
  };
  readonly mark: string;
  readonly markTitle: (number: number) => string;
  readonly note: string;
  readonly nextStop: string;
  readonly removeHead: string;
  readonly removed: string;
  readonly notSaved: (heads: number, why: string) => string;
  readonly unlike: string;
  readonly expected: string;
  readonly whichHead: (paces: number, every: number, side: 'left' | 'right') => string;
  readonly stillUnsaved: string;
  readonly nothingKept: string;
  readonly savedHead: (head: string) => string;
  readonly options: string;
  readonly option: (stops: number, heads: number) => string;
  readonly optionGains: (width: string, chance: number, minutes: string) => string;
  readonly now: (width: string, chance: number) => string;
  readonly meets: string;
  readonly noOptions: string;
  readonly restsOn: string;
}

export const walk = {
  where: ['stop', 'stops', 'heads'],
  dateCannotBe: ['first', 'last'],
  tooLarge: ['stops', 'heads'],
  headsHere: ['stop'],
  headShare: ['reading', 'share'],
  headNumber: ['number', 'head'],
  shareValue: ['percent'],
  percent: ['percent'],
  explain: ['reading'],
  sameAgainAs: ['head'],
  doneEditing: ['number'],
  editing: ['number'],
  markTitle: ['number'],
  notSaved: ['heads', 'why'],
  whichHead: ['paces', 'every', 'side'],
  savedHead: ['head'],
  option: ['stops', 'heads'],
  optionGains: ['width', 'chance', 'minutes'],
  now: ['width', 'chance'],
};
