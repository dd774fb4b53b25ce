// The invented season, opened at a desk: one for all tests of a worker, which
// only look at it.

import { readFile } from 'node:fs/promises';
import { Desk, demoFile, headwalk } from './desk';
import { test as scout } from './scout';

export { expect, expectAccessible } from './scout';

export const test = scout.extend<object, { season: Desk }>({
  season: [
    async ({}, use) => {
      const desk = await openSeason();
      await use(desk);
      await desk.close();
    },
    { scope: 'worker' },
  ],
});

/** A desk on a notebook with the invented season, on its last day. */
export async function openSeason(): Promise<Desk> {
  const desk = await Desk.open();
  for (const file of ['plantings.csv', 'fields.geojson', 'weather.csv', 'heads.csv', 'observations.csv']) {
    await headwalk('import', '--notebook', desk.notebook, demoFile(file));
  }
  const weather = (await readFile(demoFile('weather.csv'), 'utf8')).trimEnd();
  const today = weather.slice(weather.lastIndexOf('\n') + 1).split(',')[1] ?? '';
  await desk.start('--today', today);
  return desk;
}

/** The addresses of all screens, each with a name for the reader of a failure. */
export const SCREENS: readonly (readonly [name: string, open: readonly string[]])[] = [
  ['plantings', ['#/plantings']],
  ['new planting', ['#/planting/new']],
  ['squeeze key', ['#/key']],
  ['import', ['#/import']],
  ['next 2 weeks', ['#/fortnight']],
  ['weather', ['#/weather']],
  ['weather file', ['#/weather/file']],
  ['weather of a day', ['#/weather/day']],
  ['outline file', ['#/fields/file']],
  ['photo storage', ['#/photos/storage']],
  ['search', ['#/search']],
  ['export', ['#/files']],
  ['import a notebook', ['#/archive']],
  ['harvest order', ['#/harvest']],
  ['harvest terms of all', ['#/harvest/terms']],
  ['grain of all', ['#/harvest/grain']],
  ['crew', ['#/crew']],
  ['joining a crew', ['#/crew/join']],
  ['invitation', ['#/crew/invite']],
  ['exchange file', ['#/crew/file']],
  ['duplicates', ['#/duplicates']],
  ['position of a station', ['#/weather/place/demo-north']],
  ['heat-unit tables', ['#/heat-sets']],
  ['new heat-unit table', ['#/heat-set/new']],
  ['hybrids', ['#/hybrids']],
  ['settings', ['#/settings']],
  ['backup', ['#/backup']],
  ['more', ['#/more']],
];
