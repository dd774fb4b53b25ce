// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface WeatherWords {
  readonly title: string;
  readonly empty: string;
  readonly holds: (days: number, first: string, last: string) => string;
  readonly filled: (days: number) => string;
  readonly gap: (from: string, to: string) => string;
  readonly moreGaps: (count: number) => string;
  readonly refused: (why: string) => string;
  readonly bringIn: string;
  readonly typeIn: string;
  readonly fileIntro: string;
  readonly stationForFile: string;
  readonly review: (station: string, rows: number, first: string, last: string) => string;
  readonly already: (count: number) => string;
  readonly foundTitle: (count: number) => string;
  readonly store: string;
  readonly stored: string;
  readonly back: string;
  readonly station: string;
  readonly day: string;
  readonly high: string;
  readonly low: string;
  readonly rain: string;
  readonly keep: string;
  readonly kept: (when: string, station: string) => string;
  readonly needNumber: string;
  readonly lowAboveHigh: string;
  readonly needStation: string;
  readonly usedHere: (station: string) => string;
  readonly chosenHow: {
    readonly planting: string;
    readonly field: string;
    readonly only: string;
  };
  readonly chosenNearest: (km: number) => string;
}

export const weather = {
  holds: ['days', 'first', 'last'],
  filled: ['days'],
  gap: ['from', 'to'],
  moreGaps: ['count'],
  refused: ['why'],
  review: ['station', 'rows', 'first', 'last'],
  already: ['count'],
  foundTitle: ['count'],
  kept: ['when', 'station'],
  usedHere: ['station'],
  chosenNearest: ['km'],
};
