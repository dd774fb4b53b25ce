// Where stops are, where to stop next, and outlines from a file, with and without
// a position.

import type { Page } from '@playwright/test';
import { Desk, demoFile, headwalk } from './desk';
import { expect, test as scout } from './scout';

/** Within the outline of "North 1" of the demo. */
const INSIDE = { latitude: 38.2012, longitude: -40.3985, accuracy: 8 };

const test = scout.extend<{ fields: Desk }>({
  fields: async ({}, use) => {
    const desk = await Desk.open();
    for (const file of ['plantings.csv', 'fields.geojson']) {
      await headwalk('import', '--notebook', desk.notebook, demoFile(file));
    }
    await desk.start('--today', '2026-09-01');
    await use(desk);
    await desk.close();
  },
});

async function begin(page: Page): Promise<void> {
  await page.getByRole('link', { name: /^North 1/ }).tap();
  await page.getByRole('button', { name: 'Start a walk' }).tap();
  await page.getByRole('button', { name: 'Start reading heads' }).tap();
}

async function read(page: Page, share: number): Promise<void> {
  const grain = await page.locator('[role=slider] .extent').boundingBox();
  if (grain === null) throw new Error('no head is drawn');
  await page.touchscreen.tap(grain.x + grain.width / 2, grain.y + (grain.height * share) / 100);
  await page.getByRole('button', { name: 'Pliable', exact: true }).tap();
}

test.describe('with a position', () => {
  test.use({ permissions: ['geolocation'], geolocation: INSIDE });

  test('the planting is named on arrival, the first stop is placed, the way to the next is told', async ({
    page,
    fields,
    context,
  }) => {
    await page.goto(fields.url);
    await expect(page.getByRole('link', { name: 'You are at North 1' })).toBeVisible();
    await page.getByRole('link', { name: 'You are at North 1' }).tap();
    await page.getByRole('button', { name: 'Start a walk' }).tap();
    await page.getByRole('button', { name: 'Start reading heads' }).tap();
    await expect(page.getByText('no position. Where to stop')).toBeAttached();
    await read(page, 40);
    await expect(page.getByText('position ±8 m. Where to stop')).toBeAttached();

    await page.getByRole('link', { name: /Where to stop/ }).tap();
    await expect(page.locator('svg .planned')).toHaveCount(5);
    await expect(page.getByRole('status').filter({ hasText: /^Stop \d: .* ft \(\d+ paces\) / })).toBeVisible();
    const numbers = page.locator('svg .planned text');
    const order = await numbers.allTextContents();
    // Walking on changes the way, not the plan.
    await context.setGeolocation({ ...INSIDE, latitude: 38.203 });
    await page.reload();
    await expect(page.locator('svg .planned')).toHaveCount(5);
    expect(await numbers.allTextContents()).toEqual(order);
  });

  test('a poor position says so, and one far off is near nothing', async ({ page, fields, context }) => {
    await context.setGeolocation({ ...INSIDE, accuracy: 600 });
    await page.goto(fields.url);
    await expect(page.getByText(/You may be at North 1/)).toBeVisible();
    await context.setGeolocation({ latitude: 10, longitude: 10, accuracy: 8 });
    await page.reload();
    await expect(page.getByText('No planting with a known position is near.')).toBeVisible();
  });
});

test('without permission heads are read all the same and the plan is there', async ({ page, fields }) => {
  await page.goto(fields.url);
  await begin(page);
  await read(page, 40);
  await expect(page.getByRole('button', { name: 'Head 1: pliable, 40 %' })).toBeVisible();
  await page.getByRole('link', { name: /Where to stop/ }).tap();
  await expect(page.locator('svg .planned')).toHaveCount(5);
  await expect(page.getByText('The app may not see your position.')).toBeVisible();
  // A stop whose place is not known counts as the first of the plan.
  await expect(page.getByText('Next: stop 2 of 5')).toBeVisible();
});

test('outlines are looked at, given to another planting, and stored once', async ({ page, fields }) => {
  await page.goto(`${fields.url}`);
  await page.evaluate(() => (location.hash = '#/fields/file'));
  const choose = page.locator('input[type=file]');
  await choose.setInputFiles(demoFile('fields.geojson'));
  await expect(page.getByText('fields.geojson holds 12 outlines')).toBeVisible();
  await expect(page.getByText('Already imported, unchanged.')).toHaveCount(12);
  await expect(page.getByText('Nothing new to import')).toBeVisible();
  await page.getByLabel('Outline of').first().selectOption({ label: 'North 2' });
  await page.getByRole('button', { name: 'Import 1 outline' }).tap();
  await expect(page.getByText('Imported 1 outline.')).toBeVisible();
});

test('what is no outline file is refused in one line and nothing is stored', async ({ page, fields }) => {
  await page.goto(fields.url);
  await page.evaluate(() => (location.hash = '#/fields/file'));
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'fields.kml', mimeType: 'text/xml', buffer: Buffer.from('<kml><Placemark>') });
  await expect(page.getByRole('alert')).toContainText('it may be cut off');
  await expect(page.getByRole('button', { name: /^Import/ })).toHaveCount(0);
});
