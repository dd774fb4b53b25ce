// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface PhotosWords {
  readonly title: string;
  readonly ofPlanting: (name: string) => string;
  readonly count: (count: number) => string;
  readonly none: string;
  readonly camera: string;
  readonly choose: string;
  readonly ofStop: (stop: number) => string;
  readonly ofHead: (head: number) => string;
  readonly keeping: string;
  readonly keptStop: (stop: number) => string;
  readonly keptHead: (head: number) => string;
  readonly kept: string;
  readonly offered: string;
  readonly usePlace: string;
  readonly leavePlace: string;
  readonly placeUsed: string;
  readonly thePlanting: string;
  readonly stopShown: (stop: number) => string;
  readonly headShown: (head: number, stop: string) => string;
  readonly shownOn: (what: string, on: string) => string;
  readonly shownReading: (what: string, reading: string) => string;
  readonly captioned: (what: string, caption: string) => string;
  readonly caption: string;
  readonly keepCaption: string;
  readonly captionKept: string;
  readonly taken: (when: string) => string;
  readonly notHere: string;
  readonly onHub: string;
  readonly onlyHere: string;
  readonly fetch: string;
  readonly fetching: string;
  readonly remove: string;
  readonly removed: string;
  readonly notTold: string;
  readonly storage: string;
  readonly noPhotos: string;
  readonly photosTake: (photos: number, megabytes: string) => string;
  readonly onlyHereCount: (count: number) => string;
  readonly elsewhere: (count: number) => string;
  readonly freeMegabytes: (megabytes: string) => string;
  readonly nothingToFree: string;
  readonly freed: string;
}

export const photos = {
  ofPlanting: ['name'],
  count: ['count'],
  ofStop: ['stop'],
  ofHead: ['head'],
  keptStop: ['stop'],
  keptHead: ['head'],
  stopShown: ['stop'],
  headShown: ['head', 'stop'],
  shownOn: ['what', 'on'],
  shownReading: ['what', 'reading'],
  captioned: ['what', 'caption'],
  taken: ['when'],
  photosTake: ['photos', 'megabytes'],
  onlyHereCount: ['count'],
  elsewhere: ['count'],
  freeMegabytes: ['megabytes'],
};
