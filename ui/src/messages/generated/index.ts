// Written from the catalogue of words: HEADWALK_WRITE_WORDS=1 cargo test -p words

import { basis, type BasisWords } from './basis';
import { carry, type CarryWords } from './carry';
import { common, type CommonWords } from './common';
import { crew, type CrewWords } from './crew';
import { details, type DetailsWords } from './details';
import { harvest, type HarvestWords } from './harvest';
import { harvestTerms, type HarvestTermsWords } from './harvest-terms';
import { importing, type ImportingWords } from './importing';
import { key, type KeyWords } from './key';
import { outlook, type OutlookWords } from './outlook';
import { past, type PastWords } from './past';
import { photos, type PhotosWords } from './photos';
import { places, type PlacesWords } from './places';
import { plantings, type PlantingsWords } from './plantings';
import { safekeeping, type SafekeepingWords } from './safekeeping';
import { setAside, type SetAsideWords } from './set-aside';
import { settings, type SettingsWords } from './settings';
import { stages, type StagesWords } from './stages';
import { walk, type WalkWords } from './walk';
import { weather, type WeatherWords } from './weather';

/** Messages of every domain. */
export interface Words {
  readonly basis: BasisWords;
  readonly carry: CarryWords;
  readonly common: CommonWords;
  readonly crew: CrewWords;
  readonly details: DetailsWords;
  readonly harvest: HarvestWords;
  readonly harvestTerms: HarvestTermsWords;
  readonly importing: ImportingWords;
  readonly key: KeyWords;
  readonly outlook: OutlookWords;
  readonly past: PastWords;
  readonly photos: PhotosWords;
  readonly places: PlacesWords;
  readonly plantings: PlantingsWords;
  readonly safekeeping: SafekeepingWords;
  readonly setAside: SetAsideWords;
  readonly settings: SettingsWords;
  readonly stages: StagesWords;
  readonly walk: WalkWords;
  readonly weather: WeatherWords;
}

/** Names of the arguments of each message that takes some. */
export const ARGUMENTS: Readonly<Record<keyof Words, Readonly<Record<string, readonly string[]>>>> = {
  basis,
  carry,
  common,
  crew,
  details,
  harvest,
  harvestTerms,
  importing,
  key,
  outlook,
  past,
  photos,
  places,
  plantings,
  safekeeping,
  setAside,
  settings,
  stages,
  walk,
  weather,
};
