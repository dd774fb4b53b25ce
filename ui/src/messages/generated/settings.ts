// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface SettingsWords {
  readonly title: string;
  readonly scout: string;
  readonly scoutHint: string;
  readonly language: string;
  readonly languages: {
    readonly en: string;
    readonly es: string;
  };
  readonly units: string;
  readonly unit: {
    readonly us: string;
    readonly metric: string;
  };
  readonly hand: string;
  readonly right: string;
  readonly left: string;
  readonly theme: string;
  readonly themes: {
    readonly system: string;
    readonly light: string;
    readonly dark: string;
  };
  readonly answersTitle: string;
  readonly level: string;
  readonly targetChance: string;
  readonly targetWidth: string;
  readonly perStop: string;
  readonly perHead: string;
  readonly headsPerStop: string;
  readonly assumptionNote: string;
  readonly moreTitle: string;
  readonly about: string;
  readonly aboutText: string;
  readonly fontLicence: string;
}

export const settings = {
};
