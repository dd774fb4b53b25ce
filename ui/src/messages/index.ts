// Everything the screens say, in the language chosen. `say.walk.finish` in a component
// follows the language without more ado. The texts are those of the catalogue; where a
// sentence is chosen or put together by more than a number, a function beside this file
// does so and stands in front of them.

import { basis } from './basis';
import { carry } from './carry';
import { crew } from './crew';
import type { Words } from './generated';
import { harvest } from './harvest';
import { harvestTerms } from './harvest-terms';
import { key } from './key';
import { outlook } from './outlook';
import { past } from './past';
import { photos } from './photos';
import { places } from './places';
import { plantings } from './plantings';
import { safekeeping } from './safekeeping';
import { setAside } from './set-aside';
import { stages } from './stages';
import { walk } from './walk';
import { weather } from './weather';
import { words } from './words';

const composed = {
  basis,
  carry,
  crew,
  harvest,
  harvestTerms,
  key,
  outlook,
  past,
  photos,
  places,
  plantings,
  safekeeping,
  setAside,
  stages,
  walk,
  weather,
};

type Composed = typeof composed;
type Said = {
  readonly [Area in keyof Words]: Area extends keyof Composed
    ? Omit<Words[Area], keyof Composed[Area]> & Composed[Area]
    : Words[Area];
};

const areas = new Map<keyof Words, object>();

export const say = new Proxy({} as Said, {
  get: (_, area: keyof Words) => {
    const known = areas.get(area) ?? inFront(area);
    areas.set(area, known);
    return known;
  },
});

function inFront(area: keyof Words): object {
  const first: object = area in composed ? composed[area as keyof Composed] : {};
  return new Proxy(first, {
    get: (_, name: string) => (name in first ? Reflect.get(first, name) : Reflect.get(words[area], name)) as unknown,
  });
}

export { spoken } from './language.svelte';
