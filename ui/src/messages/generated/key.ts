// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface KeyWords {
  readonly title: string;
  readonly first: string;
  readonly intro: string;
  readonly feel: string;
  readonly mistaken: string;
  readonly next: string;
  readonly whichTitle: string;
  readonly which: string;
  readonly start: string;
  readonly entriesFeel: {
    readonly boot: string;
    readonly emerging: string;
    readonly bloom: string;
    readonly liquid: string;
    readonly pliable: string;
    readonly dented: string;
    readonly dark_spot: string;
  };
  readonly entriesMistaken: {
    readonly boot: string;
    readonly emerging: string;
    readonly bloom: string;
    readonly liquid: string;
    readonly pliable: string;
    readonly dented: string;
    readonly dark_spot: string;
  };
  readonly entriesNext: {
    readonly boot: string;
    readonly emerging: string;
    readonly bloom: string;
    readonly liquid: string;
    readonly pliable: string;
    readonly dented: string;
    readonly dark_spot: string;
  };
  readonly drawing: (reading: string) => string;
}

export const key = {
  drawing: ['reading'],
};
