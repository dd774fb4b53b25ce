// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

export interface CommonWords {
  readonly stage: {
    readonly boot: string;
    readonly heading: string;
    readonly half_bloom: string;
    readonly milk: string;
    readonly soft_dough: string;
    readonly hard_dough: string;
    readonly black_layer: string;
  };
  readonly mark: {
    readonly boot: string;
    readonly heading: string;
    readonly half_bloom: string;
    readonly milk: string;
    readonly soft_dough: string;
    readonly hard_dough: string;
    readonly black_layer: string;
  };
  readonly reading: {
    readonly boot: string;
    readonly emerging: string;
    readonly bloom: string;
    readonly liquid: string;
    readonly pliable: string;
    readonly dented: string;
    readonly dark_spot: string;
  };
  readonly flag: {
    readonly moldy: string;
    readonly sheathed: string;
    readonly bird_fed: string;
    readonly sterile_florets: string;
    readonly lodged_plant: string;
  };
  readonly problem: {
    readonly no_signal: string;
    readonly not_trusted: string;
    readonly not_let_in: string;
    readonly removed: string;
    readonly not_allowed: string;
    readonly hub_busy: string;
    readonly hub_full: string;
    readonly hub_version: string;
    readonly last_owner: string;
    readonly not_in_crew: string;
    readonly bad_invitation: string;
    readonly bad_exchange_file: string;
    readonly other_crew: string;
    readonly no_crew: string;
    readonly in_crew: string;
    readonly no_token: string;
    readonly parted: string;
    readonly stopped: string;
    readonly crew_failed: string;
    readonly bad_input: string;
    readonly not_found: string;
    readonly conflict: string;
    readonly disk_full: string;
    readonly read_only: string;
    readonly unavailable: string;
    readonly from_newer_app: string;
    readonly damaged: string;
    readonly incomplete: string;
    readonly stranger: string;
    readonly internal: string;
  };
  readonly technical: string;
  readonly back: string;
  readonly done: string;
  readonly undo: string;
  readonly cancel: string;
  readonly tryAgain: string;
  readonly close: string;
  readonly loading: string;
  readonly nowhere: string;
  readonly toPlantings: string;
  readonly mainTabs: string;
  readonly tabs: {
    readonly plantings: string;
    readonly fortnight: string;
    readonly more: string;
  };
  readonly assumption: string;
  readonly changeAssumption: (what: string, value: string) => string;
  readonly less: (what: string) => string;
  readonly more: (what: string) => string;
  readonly percent: (value: number) => string;
  readonly underOne: string;
  readonly overNinetyNine: string;
}

export const common = {
  changeAssumption: ['what', 'value'],
  less: ['what'],
  more: ['what'],
  percent: ['value'],
};
