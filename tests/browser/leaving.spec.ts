// Where the hub is lost or forgot this device, and what an exchange says beside its
// numbers.

import { copyFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { Desk, headwalk } from './desk';
import { Hub } from './hub';
import { expect, expectAccessible, test } from './scout';
import { Thumb } from './thumb';

const go = (page: Page, address: string) => page.evaluate((hash) => (location.hash = hash), address);

async function found(page: Page, hub: Hub): Promise<void> {
  await go(page, '#/crew/join');
  await page.getByLabel('Invitation').first().fill(`${hub.url}/#join=${hub.ownerCode}`);
  await page.getByLabel('Your name').first().fill('Ada');
  await page.getByLabel('Name of the crew').first().fill('North bench');
  await page.getByRole('button', { name: 'Join', exact: true }).tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('North bench');
}

async function addPlanting(page: Page, name: string): Promise<void> {
  const thumb = new Thumb(page);
  await go(page, '#/planting/new');
  await thumb.write('Name', name);
  await thumb.tap('button', 'Save the planting');
  await expect(page.getByRole('button', { name: 'Start a walk' })).toBeVisible();
}

test('a crew whose hub is lost is left here and now, and another joined with everything', async ({ page, desk }) => {
  const [lost, next] = [await Hub.open(), await Hub.open()];
  await page.goto(desk.url);
  await found(page, lost);
  await addPlanting(page, 'Creek bottom');
  await lost.stop();

  await go(page, '#/crew');
  await expect(page.getByRole('button', { name: 'Leave without the hub' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Leave the crew' }).tap();
  await page.getByRole('button', { name: 'Leave', exact: true }).tap();
  await expect(page.getByRole('alert')).toContainText('The hub was not reached');
  await expect(page.getByRole('group', { name: 'Leave North bench without its hub?' })).toContainText(
    'Everything in this notebook stays.',
  );
  await expectAccessible(page, 'leaving without the hub');
  // Nothing has happened so far.
  await page.getByRole('button', { name: 'Stay' }).tap();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('North bench');
  await page.getByRole('button', { name: 'Leave the crew' }).tap();
  await page.getByRole('button', { name: 'Leave', exact: true }).tap();
  await page.getByRole('button', { name: 'Leave without the hub' }).tap();
  await expect(page.getByText('This device is no longer in a crew.')).toBeVisible();
  await expect(page.getByRole('link', { name: 'Join a crew' })).toBeVisible();
  await go(page, '#/plantings');
  await expect(page.getByRole('link', { name: /Creek bottom/ })).toBeVisible();

  await found(page, next);
  await expect(page.getByText('up to date')).toBeVisible({ timeout: 60_000 });
  await lost.close();
  await next.close();
});

test('a hub that does not know this device is told apart from a wrong code', async ({ page, desk }) => {
  const hub = await Hub.open();
  await page.goto(desk.url);
  await found(page, hub);
  await expect(page.getByText('up to date')).toBeVisible({ timeout: 60_000 });
  await hub.forget();

  await page.getByRole('button', { name: 'Exchange now' }).tap();
  await expect(page.getByRole('heading', { name: 'The hub does not know this device' })).toBeVisible();
  await expect(page.getByText('The hub does not take this code')).toHaveCount(0);
  await expect(page.getByRole('link', { name: 'Join a crew' })).toBeVisible();
  await page.getByRole('button', { name: 'Leave without the hub' }).tap();
  await expectAccessible(page, 'a hub that does not know this device');
  await page.getByRole('button', { name: 'Leave without the hub' }).tap();
  await expect(page.getByText('This device is no longer in a crew.')).toBeVisible();
  await hub.close();
});

test('after a copied notebook exchanged, its own entries go on under a new id, and that is told', async ({
  page,
  desk,
  browser,
}) => {
  const hub = await Hub.open();
  await page.goto(desk.url);
  await found(page, hub);
  await addPlanting(page, 'Creek bottom');
  await desk.stop('SIGTERM');
  await headwalk('crew', '--notebook', desk.notebook, 'exchange');
  const copy = await Desk.open();
  for (const ending of ['', '.token']) await copyFile(desk.notebook + ending, copy.notebook + ending);
  await desk.start();
  await page.goto(desk.url);
  await addPlanting(page, 'Hill 1');
  await desk.stop('SIGTERM');
  await headwalk('crew', '--notebook', desk.notebook, 'exchange');

  // Without the hub it cannot know what the other one wrote meanwhile.
  await hub.stop();
  await copy.start();
  const context = await browser.newContext();
  const other = await context.newPage();
  await other.goto(copy.url);
  await addPlanting(other, 'Hill 2');
  await hub.start();
  await go(other, '#/crew');
  await other.getByRole('button', { name: 'Exchange now' }).tap();
  await expect(other.getByRole('heading', { name: 'This device has a new id' })).toBeVisible({ timeout: 60_000 });
  await expect(other.getByText('Another device wrote under the id of this one')).toBeVisible();
  await go(other, '#/plantings');
  for (const name of [/Creek bottom/, /Hill 1/, /Hill 2/]) {
    await expect(other.getByRole('link', { name })).toBeVisible();
  }
  await go(other, '#/crew');
  await other.getByRole('button', { name: 'Got it' }).tap();
  await expect(other.getByRole('heading', { name: 'This device has a new id' })).toHaveCount(0);
  await context.close();
  await copy.close();
  await hub.close();
});

test('what an exchange left out, and that own entries moved, is told', async ({ page, desk }) => {
  const hub = await Hub.open();
  await page.goto(desk.url);
  await found(page, hub);
  const series = (who: string | null, why: string, own = false) => ({ series: crypto.randomUUID(), who, own, why });
  const told = {
    left_alone: [
      series('Ben', 'not_signed'),
      series('Ben', 'other_key'),
      series(null, 'not_taken'),
      series('Ada', 'incoherent', true),
    ],
    moved: crypto.randomUUID() as string | null,
    moved_why: 'written_elsewhere',
  };
  await page.route('**/crew', async (route) => {
    if (route.request().postData()?.includes('moved_seen')) told.moved = null;
    const response = await route.fetch();
    const reply = (await response.json()) as { answer?: Record<string, unknown> };
    if (reply.answer?.['crew'] === 'state') Object.assign(reply.answer, told);
    await route.fulfill({ response, json: reply });
  });
  await go(page, '#/plantings');
  await go(page, '#/crew');
  await expect(page.getByRole('heading', { name: 'Left out of the exchange' })).toBeVisible();
  await expect(page.getByText('Entries of Ben')).toHaveCount(2);
  await expect(page.getByText('Some came without the signature of the device that writes them.')).toBeVisible();
  await expect(page.getByText('They are signed with another key')).toBeVisible();
  await expect(page.getByText('The hub does not take them from this device.')).toBeVisible();
  await expect(page.getByText('What the hub says about them does not fit together.')).toBeVisible();
  await expect(page.getByRole('heading', { name: 'This device has a new id' })).toBeVisible();
  await expect(page.getByText('Nothing is lost, and there is nothing to do.')).toBeVisible();
  await expectAccessible(page, 'what an exchange left out');
  await page.getByRole('button', { name: 'Got it' }).tap();
  await expect(page.getByRole('heading', { name: 'This device has a new id' })).toHaveCount(0);
  await hub.close();
});
