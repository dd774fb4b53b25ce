// Pictures of the screens, on the invented season, into ui/screenshots.

import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { top } from './desk';
import { Hub } from './hub';
import { expect, test } from './season';

async function picture(page: Page, name: string): Promise<void> {
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false');
  await expect(page.getByRole('heading', { level: 1 })).not.toBeEmpty();
  await page.evaluate(() => document.fonts.ready);
  // Nothing on its way, neither from the notebook nor to it.
  await page.waitForLoadState('networkidle');
  await page.screenshot({ path: join(top, 'ui/screenshots', `${name}.png`), animations: 'disabled' });
}

/** Reads some heads, so that the walk screen has something to show. */
async function walk(page: Page): Promise<void> {
  await page.getByRole('link', { name: /Hill 3/ }).tap();
  await page.locator('button.main', { hasText: /walk|recorrida/ }).tap();
  const start = page.getByRole('button', { name: /Start reading heads|Empezar a leer/ });
  const again = page.getByRole('button', { name: /^(Same again|Otra igual)/ });
  await expect(start.or(again).first()).toBeVisible();
  if (await start.isVisible()) await start.tap();
  const grain = await page.locator('[role=slider] .extent').boundingBox();
  if (grain === null) throw new Error('no head is drawn');
  for (const [reading, share] of [['Pliable|Moldeable', 40], ['Pliable|Moldeable', 60], ['Liquid|Líquido', 80]] as const) {
    await page.touchscreen.tap(grain.x + grain.width / 2, grain.y + (grain.height * share) / 100);
    await page.getByRole('button', { name: new RegExp(`^(${reading})$`) }).tap();
    // No scout reads two heads within half a second.
    await page.waitForTimeout(500);
  }
  const saved = page.getByRole('button', { name: /^(Head|Panoja) \d+: [^,]+, \d+ %$/ });
  await expect(saved).toHaveCount(3);
  await page.touchscreen.tap(grain.x + grain.width / 2, grain.y + grain.height * 0.5);
}

test('pictures', async ({ page, season }) => {
  await page.goto(season.url);
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
  await picture(page, 'plantings');
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(page.locator('a[href^="#/walk/"]').first()).toBeVisible();
  await picture(page, 'planting');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'planting-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.evaluate(() => (location.hash += '/outlook'));
  await expect(page.locator('figure path.behind')).toBeVisible();
  await picture(page, 'outlook');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'outlook-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await picture(page, 'outlook-large-text');
  await page.evaluate(() => (document.documentElement.style.fontSize = ''));
  const planting = await page.evaluate(() => location.hash.replace('/outlook', ''));
  for (const name of ['history', 'compare', 'sheet']) {
    await page.evaluate((hash) => (location.hash = hash), `${planting}/${name}`);
    await expect(page.locator('button.main, article, section').first()).toBeVisible();
    await picture(page, name);
  }
  await page.evaluate(() => (location.hash = '#/files'));
  await picture(page, 'files-out');
  await page.evaluate(() => (location.hash = '#/search'));
  await page.getByRole('searchbox').fill('c');
  await expect(page.getByRole('link', { name: /Creek 3/ }).first()).toBeVisible();
  await picture(page, 'search');
  await page.evaluate((hash) => (location.hash = hash), `${planting}/outlook`);
  await page.evaluate(() => (location.hash = location.hash.replace('outlook', 'stops')));
  await expect(page.locator('svg .planned').first()).toBeVisible();
  await picture(page, 'where-to-stop');
  await page.evaluate(() => (location.hash = '#/fields/file'));
  await page.locator('input[type=file]').setInputFiles(join(top, 'demo-data/fields.geojson'));
  await expect(page.getByText('holds 12 outlines')).toBeVisible();
  await picture(page, 'outlines');
  await page.evaluate(() => (location.hash = '#/plantings'));
  await page.getByRole('link', { name: /Creek 2/ }).tap();
  await page.getByRole('link', { name: 'Grain and harvest' }).tap();
  await expect(page.getByRole('slider').first()).toBeVisible();
  await picture(page, 'harvest');
  await page.getByRole('slider').first().scrollIntoViewIfNeeded();
  await picture(page, 'harvest-what-if');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'harvest-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.evaluate(() => (location.hash += '/ground'));
  await expect(page.getByRole('button', { name: /Tap for one more/ })).toBeVisible();
  await picture(page, 'ground-count');
  await page.evaluate(() => (location.hash = '#/harvest'));
  await expect(page.locator('ol li').first()).toBeVisible();
  await picture(page, 'harvest-order');
  await page.evaluate(() => (location.hash = '#/fortnight'));
  await expect(page.locator('article').first()).toBeVisible();
  await picture(page, 'fortnight');
  await page.evaluate(() => (location.hash = '#/plantings'));
  await walk(page);
  await picture(page, 'walk');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'walk-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await picture(page, 'walk-large-text');
  await page.evaluate(() => (document.documentElement.style.fontSize = ''));
  await page.evaluate(() => (location.hash = '#/key'));
  await picture(page, 'key');
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByText('Español').tap();
  await page.evaluate(() => (location.hash = '#/plantings'));
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
  await picture(page, 'plantings-spanish');
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(page.locator('a[href$="/outlook"]')).toBeVisible();
  await page.evaluate(() => (location.hash += '/outlook'));
  await expect(page.locator('figure path.behind')).toBeVisible();
  await picture(page, 'outlook-spanish');
});

test('pictures of a crew', async ({ page, season }) => {
  const hub = await Hub.open();
  await page.goto(season.url);
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByText('English').tap();
  await page.evaluate(() => (location.hash = '#/crew/join'));
  await page.getByLabel('Invitation').first().fill(hub.ownerCode);
  await page.getByLabel('Address of the hub').first().fill(hub.url);
  await page.getByLabel('Your name').first().fill('Ada');
  await page.getByLabel('Name of the crew').first().fill('North bench');
  await picture(page, 'crew-join');
  await page.getByRole('button', { name: 'Join', exact: true }).tap();
  await expect(page.getByText('up to date')).toBeVisible({ timeout: 60_000 });
  await expect(page.getByText('this device')).toBeVisible();
  await picture(page, 'crew');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'crew-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
  await picture(page, 'crew-large-text');
  await page.evaluate(() => (document.documentElement.style.fontSize = ''));
  await page.evaluate(() => (location.hash = '#/crew/invite'));
  await page.getByRole('button', { name: 'Make the invitation' }).tap();
  await expect(page.getByRole('img', { name: 'QR code of the invitation' })).toBeVisible();
  await picture(page, 'crew-invitation');
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByText('Español').tap();
  await page.evaluate(() => (location.hash = '#/crew'));
  await expect(page.getByText('este aparato')).toBeVisible();
  await picture(page, 'crew-spanish');
  await hub.close();
});
