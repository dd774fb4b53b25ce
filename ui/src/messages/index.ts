// Everything the screens say, in the language chosen. `say.walk.finish` in a
// component follows the language without more ado.

import { basis } from './basis';
import { carry } from './carry';
import { common } from './common';
import { harvest } from './harvest';
import { harvestTerms } from './harvest-terms';
import { crew } from './crew';
import { importing } from './importing';
import { key } from './key';
import { spoken, type Language } from './language.svelte';
import { outlook } from './outlook';
import { photos } from './photos';
import { places } from './places';
import { past } from './past';
import { plantings } from './plantings';
import { safekeeping } from './safekeeping';
import { setAside } from './set-aside';
import { settings } from './settings';
import { stages } from './stages';
import { walk } from './walk';
import { weather } from './weather';

const catalogs = {
  basis,
  carry,
  common,
  harvest,
  harvestTerms,
  crew,
  importing,
  key,
  outlook,
  photos,
  places,
  past,
  plantings,
  safekeeping,
  setAside,
  settings,
  stages,
  walk,
  weather,
};

type Catalogs = typeof catalogs;
type Said = { readonly [Area in keyof Catalogs]: Catalogs[Area][Language] };

export const say: Said = new Proxy({} as Said, {
  get: (_, area: keyof Catalogs) => catalogs[area][spoken.language],
});

export { spoken } from './language.svelte';
