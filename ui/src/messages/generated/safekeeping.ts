// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface SafekeepingWords {
  readonly title: string;
  readonly intro: string;
  readonly backUp: string;
  readonly backingUp: string;
  readonly made: (name: string) => string;
  readonly last: string;
  readonly none: string;
  readonly older: (count: number) => string;
  readonly at: (at: string | number) => string;
  readonly size: (megabytes: number) => string;
  readonly where: string;
  readonly checkTitle: string;
  readonly check: string;
  readonly checking: string;
  readonly checked: (when: string | number, changes: number) => string;
  readonly neverChecked: string;
  readonly mended: string;
  readonly photosWhole: (photos: number) => string;
  readonly photosDamaged: (photos: number) => string;
  readonly photosMissing: (photos: number) => string;
  readonly restoreTitle: string;
  readonly restoreIntro: string;
  readonly restoreOf: (when: string) => string;
  readonly restoreMeans: string;
  readonly restore: string;
  readonly restoreNot: string;
  readonly restoring: string;
  readonly restored: (changes: number) => string;
  readonly restoredAside: string;
  readonly restoredTitle: string;
  readonly restoreInstead: string;
  readonly restoreInsteadMeans: string;
  readonly salvageTitle: string;
  readonly kept: (changes: number, heads: number) => string;
  readonly lostNone: string;
  readonly lost: (changes: number) => string;
  readonly lostBetween: (changes: number, from: string | number, to: string | number) => string;
  readonly endUnknown: string;
  readonly unproved: (changes: number) => string;
  readonly fromBackup: (changes: number) => string;
  readonly settingsLost: string;
  readonly setAside: string;
  readonly goOn: string;
  readonly openAgain: string;
  readonly opening: string;
  readonly salvage: string;
  readonly goOnWithThis: string;
  readonly salvaging: string;
  readonly troubleTitle: {
    readonly damaged: string;
    readonly incomplete: string;
    readonly from_newer_app: string;
    readonly read_only: string;
    readonly disk_full: string;
    readonly unavailable: string;
  };
  readonly troubleText: {
    readonly damaged: string;
    readonly incomplete: string;
    readonly from_newer_app: string;
    readonly read_only: string;
    readonly disk_full: string;
    readonly unavailable: string;
  };
  readonly troubleDamagedSteps: {
    readonly step1: string;
    readonly step2: string;
    readonly step3: string;
  };
  readonly troubleIncompleteSteps: {
    readonly step1: string;
    readonly step2: string;
    readonly step3: string;
  };
  readonly troubleFromNewerAppSteps: {
    readonly step1: string;
    readonly step2: string;
  };
  readonly troubleReadOnlySteps: {
    readonly step1: string;
    readonly step2: string;
    readonly step3: string;
  };
  readonly troubleDiskFullSteps: {
    readonly step1: string;
    readonly step2: string;
  };
  readonly troubleUnavailableSteps: {
    readonly step1: string;
    readonly step2: string;
  };
}

export const safekeeping = {
  made: ['name'],
  older: ['count'],
  at: ['at'],
  size: ['megabytes'],
  checked: ['when', 'changes'],
  photosWhole: ['photos'],
  photosDamaged: ['photos'],
  photosMissing: ['photos'],
  restoreOf: ['when'],
  restored: ['changes'],
  kept: ['changes', 'heads'],
  lost: ['changes'],
  lostBetween: ['changes', 'from', 'to'],
  unproved: ['changes'],
  fromBackup: ['changes'],
};
