// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface DetailsWords {
  readonly rowTooLong: string;
  readonly fieldCount: (fields: number, columns: number) => string;
  readonly rowTooShort: string;
  readonly notOfLayout: string;
  readonly valueMissing: (column: string) => string;
  readonly nameTooLong: (column: string, most: number) => string;
  readonly controlCharacter: (column: string) => string;
  readonly dateMissing: (column: string) => string;
  readonly notADate: (column: string, text: string) => string;
  readonly farDate: (column: string, date: string, first: string, last: string) => string;
  readonly readingMissing: string;
  readonly unknownReading: (text: string) => string;
  readonly shareNotWhole: (text: string) => string;
  readonly shareOutOfRange: (share: string) => string;
  readonly shareMissing: (reading: string) => string;
  readonly shareOnBoot: string;
  readonly notDegrees: (column: string, text: string, limit: number) => string;
  readonly swapped: (latitude: string) => string;
  readonly positionHalf: (given: string, missing: string) => string;
  readonly plantingUnnamed: string;
  readonly plantingAgain: (name: string, first: number) => string;
  readonly unknownPurpose: (text: string) => string;
  readonly notAnArea: (column: string, text: string) => string;
  readonly bloomBeforePlanting: (bloom: string, planted: string) => string;
  readonly notANumber: (column: string, text: string) => string;
  readonly failedQuality: (element: string, flag: string) => string;
}

export const details = {
  fieldCount: ['fields', 'columns'],
  valueMissing: ['column'],
  nameTooLong: ['column', 'most'],
  controlCharacter: ['column'],
  dateMissing: ['column'],
  notADate: ['column', 'text'],
  farDate: ['column', 'date', 'first', 'last'],
  unknownReading: ['text'],
  shareNotWhole: ['text'],
  shareOutOfRange: ['share'],
  shareMissing: ['reading'],
  notDegrees: ['column', 'text', 'limit'],
  swapped: ['latitude'],
  positionHalf: ['given', 'missing'],
  plantingAgain: ['name', 'first'],
  unknownPurpose: ['text'],
  notAnArea: ['column', 'text'],
  bloomBeforePlanting: ['bloom', 'planted'],
  notANumber: ['column', 'text'],
  failedQuality: ['element', 'flag'],
};
