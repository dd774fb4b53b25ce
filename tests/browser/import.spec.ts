// A head file brought in from the screens: looked at first, bad rows named by
// their line, good rows stored once.

import { readFile } from 'node:fs/promises';
import { demoFile } from './desk';
import { expect, expectAccessible, test } from './scout';

const BAD = `planting,walked_on,stop,reading,share
East 1,2026-09-01,1,pliable,40
East 1,2026-09-01,1,mushy,40
East 1,2026-09-01,1,pliable,0
East 1,2026-09-01,1,pliable,101
East 1,2026-09-01,1,pliable,
East 1,2026-09-01,1,pliable,half
East 1,2026-09-31,1,pliable,40
East 1,2026-09-01,2,boot,
`;

test.beforeEach(async ({ page, desk }) => {
  await page.goto(desk.url);
  await page.getByRole('link', { name: 'Import heads or plantings' }).tap();
});

test('bad rows are named, good rows are stored, and not twice', async ({ page }) => {
  const choose = page.locator('input[type=file]');
  const file = { name: 'walk.csv', mimeType: 'text/csv', buffer: Buffer.from(BAD) };
  await choose.setInputFiles(file);
  await expect(page.getByText('6 rows are refused')).toBeVisible();
  for (const line of [3, 4, 5, 6, 7, 8]) await expect(page.getByText(`Line ${line}`)).toBeVisible();
  await page.getByRole('button', { name: 'Import 2 heads' }).tap();
  await expect(page.getByText('Imported 2 heads.')).toBeVisible();

  await page.evaluate(() => (location.hash = '#/plantings'));
  await expect(page.getByRole('link', { name: /East 1/ })).toHaveCount(1);
  await page.evaluate(() => (location.hash = '#/import'));
  await page.locator('input[type=file]').setInputFiles(file);
  await expect(page.getByText('Nothing in this file is new')).toBeVisible();
});

test('places that seem to be swapped are asked about before anything is stored', async ({ page }) => {
  const header = 'planting,walked_on,stop,reading,share,latitude,longitude';
  const swapped = [1, 2, 3].map((stop) => `East 1,2026-09-01,${stop},pliable,40,-99.2,38.5`);
  const file = { name: 'walk.csv', mimeType: 'text/csv', buffer: Buffer.from([header, ...swapped].join('\n')) };
  await page.locator('input[type=file]').setInputFiles(file);
  await expect(page.getByRole('heading', { name: 'Are latitude and longitude swapped?' })).toBeVisible();
  await expect(page.getByText('3 rows are no real position or far from your fields')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Import/ })).toHaveCount(0);
  await expectAccessible(page, 'swapped places');
  // As written none of them is a place.
  await page.getByRole('button', { name: 'Keep them as written' }).tap();
  await expect(page.getByRole('alert')).toContainText('This cannot be used as it is');
  await page.getByRole('button', { name: 'Swap them' }).tap();
  await expect(page.getByText('Latitude and longitude will be swapped on import.')).toBeVisible();
  await expect(page.getByRole('alert')).toHaveCount(0);
  await page.getByRole('button', { name: 'Change the answer' }).tap();
  await expect(page.getByRole('button', { name: /^Import/ })).toHaveCount(0);
  await page.getByRole('button', { name: 'Swap them' }).tap();
  await page.getByRole('button', { name: 'Import 3 heads' }).tap();
  await expect(page.getByText('Imported 3 heads.')).toBeVisible();

  // Far from every field as it stands, and near one the other way round.
  const next = async (place: string) => {
    await page.evaluate(() => (location.hash = '#/plantings'));
    await page.evaluate(() => (location.hash = '#/import'));
    const rows = `${header}\nEast 2,2026-09-02,1,pliable,40,${place}\n`;
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'next.csv', mimeType: 'text/csv', buffer: Buffer.from(rows) });
  };
  await next('-33.1,-61.2');
  await page.getByRole('button', { name: 'Import 1 head' }).tap();
  await expect(page.getByText('Imported 1 head.')).toBeVisible();
  await next('-61.21,-33.12');
  await expect(page.getByText('1 row is no real position or far from your fields')).toBeVisible();
  await page.getByRole('button', { name: 'Keep them as written' }).tap();
  await page.getByRole('button', { name: 'Import 1 head' }).tap();
  await expect(page.getByText('Imported 1 head.')).toBeVisible();
});

for (const [what, bytes] of [
  ['an empty file', ''],
  ['a file without a needed column', 'planting,walked_on,stop,reading\nEast 1,2026-09-01,1,boot\n'],
  ['a file that is not UTF-8', Buffer.from([0x70, 0xff, 0xfe, 0x0a])],
] as const) {
  test(`${what} is refused and nothing is stored`, async ({ page }) => {
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'bad.csv', mimeType: 'text/csv', buffer: Buffer.from(bytes) });
    await expect(page.getByRole('alert').first()).toBeVisible();
    await expect(page.getByRole('button', { name: /^Import/ })).toHaveCount(0);
    await page.evaluate(() => (location.hash = '#/plantings'));
    await expect(page.getByText('No plantings yet')).toBeVisible();
  });
}

test('the demo season comes in from its head file', async ({ page }) => {
  const heads = await readFile(demoFile('heads.csv'));
  const rows = heads.toString('utf8').trim().split('\n').length - 1;
  await page.locator('input[type=file]').setInputFiles(demoFile('heads.csv'));
  await page.getByRole('button', { name: `Import ${rows.toLocaleString('en-US')} heads` }).tap();
  await page.getByRole('link', { name: 'Go to plantings' }).tap();
  // The first list rolls up every walk of the season.
  await expect(page.getByRole('listitem')).toHaveCount(12, { timeout: 60_000 });
});
