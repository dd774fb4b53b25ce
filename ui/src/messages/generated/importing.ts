// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface ImportingWords {
  readonly title: string;
  readonly intro: string;
  readonly introPlantings: string;
  readonly choose: string;
  readonly chooseOther: string;
  readonly reading: (name: string) => string;
  readonly notText: (name: string) => string;
  readonly unreadable: (name: string) => string;
  readonly holds: (name: string) => string;
  readonly good: (heads: number, stops: number, walks: number) => string;
  readonly already: (count: number) => string;
  readonly newPlantings: (count: number) => string;
  readonly refused: (count: number) => string;
  readonly firstRefused: (count: number) => string;
  readonly line: (line: number) => string;
  readonly store: (heads: number) => string;
  readonly swappedTitle: string;
  readonly swapped: (rows: number) => string;
  readonly swap: string;
  readonly asWritten: string;
  readonly willSwap: string;
  readonly staysAsWritten: string;
  readonly askAgain: string;
  readonly nothingNew: string;
  readonly goodPlantings: (count: number) => string;
  readonly updatedPlantings: (count: number) => string;
  readonly listsPlantings: string;
  readonly storePlantings: string;
  readonly storedPlantings: (added: number, updated: number) => string;
  readonly stop: string;
  readonly storing: string;
  readonly stored: (heads: number) => string;
  readonly storedRefused: (count: number) => string;
  readonly see: string;
}

export const importing = {
  reading: ['name'],
  notText: ['name'],
  unreadable: ['name'],
  holds: ['name'],
  good: ['heads', 'stops', 'walks'],
  already: ['count'],
  newPlantings: ['count'],
  refused: ['count'],
  firstRefused: ['count'],
  line: ['line'],
  store: ['heads'],
  swapped: ['rows'],
  goodPlantings: ['count'],
  updatedPlantings: ['count'],
  storedPlantings: ['added', 'updated'],
  stored: ['heads'],
  storedRefused: ['count'],
};
