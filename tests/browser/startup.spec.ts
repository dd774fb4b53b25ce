// A notebook that does not open: the app says what is wrong and what to do, and a
// damaged one is saved by one touch.

import { open, readdir, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, expectAccessible, test } from './scout';
import { demoFile, type Desk, headwalk } from './desk';

/** Writes over the file's first bytes, by which it is known. */
async function damage(notebook: string): Promise<void> {
  const file = await open(notebook, 'r+');
  await file.write(Buffer.alloc(200, 0x5a), 0, 200, 0);
  await file.close();
}

async function startDamaged(desk: Desk, page: Page): Promise<void> {
  await desk.stop('SIGTERM');
  await headwalk('import', '--notebook', desk.notebook, demoFile('plantings.csv'));
  await damage(desk.notebook);
  await desk.start();
  await page.goto(desk.url);
  await expect(page.getByRole('heading', { name: 'The notebook is damaged' })).toBeVisible();
}

test('a damaged notebook is set aside and saved, and the scout is told', async ({ page, desk }) => {
  await startDamaged(desk, page);
  await expectAccessible(page, 'damaged');
  // No screen goes on as if nothing were wrong.
  await page.evaluate(() => (location.hash = '#/settings'));
  await expect(page.getByRole('heading', { name: 'The notebook is damaged' })).toBeVisible();
  await page.getByRole('button', { name: 'Save what can be read' }).tap();
  await expect(page.getByText(/^Kept: 12 changes/)).toBeVisible();
  await expect(page.getByText('Nothing is known to be lost.')).toBeVisible();
  await expectAccessible(page, 'saved');
  const beside = await readdir(dirname(desk.notebook));
  const aside = beside.find((name) => /^notebook-damaged-\d{4}-\d\d-\d\d-\d{6}\.db$/.test(name));
  expect(aside, `set aside among ${beside.join(', ')}`).toBeDefined();
  await page.getByRole('button', { name: 'Go to plantings' }).tap();
  await page.evaluate(() => (location.hash = '#/plantings'));
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
  await page.evaluate(() => (location.hash = '#/backup'));
  await expect(page.getByText('This notebook was saved from a damaged file')).toBeVisible();
});

test('the startup screen fits a narrow phone, large text and gloves', async ({ page, desk }) => {
  await startDamaged(desk, page);
  for (const [width, size] of [[320, '100%'], [390, '200%']] as const) {
    await page.setViewportSize({ width, height: 844 });
    await page.evaluate((text) => (document.documentElement.style.fontSize = text), size);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over, `${width} px, ${size}`).toBeLessThanOrEqual(0);
  }
  for (const button of await page.getByRole('button').all()) {
    expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(56);
  }
});

test('a backup is made from the screen, and says where it lies', async ({ page, desk }) => {
  await page.goto(desk.url);
  await page.evaluate(() => (location.hash = '#/backup'));
  await expect(page.getByText('There is no backup on this device yet.')).toBeVisible();
  await page.getByRole('button', { name: 'Back up now' }).tap();
  await expect(page.getByText(/^Backup made and checked: notebook-/)).toBeVisible();
  const folder = `${dirname(desk.notebook)}/backups`;
  const [name] = await readdir(folder);
  expect((await stat(`${folder}/${name}`)).size).toBeGreaterThan(4096);
  await page.getByRole('button', { name: 'Check the notebook now' }).tap();
  await expect(page.getByText(/changes are intact/)).toBeVisible();
});

test('a walk that was removed comes back with one touch', async ({ page, desk }) => {
  await desk.stop('SIGTERM');
  await headwalk('import', '--notebook', desk.notebook, demoFile('heads.csv'));
  await desk.start('--today', '2026-09-16');
  await page.goto(desk.url);
  // The list is there before its answers are.
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  const walks = page.locator('a[href^="#/walk/"]');
  await expect(walks.first()).toBeVisible({ timeout: 30_000 });
  const before = await walks.count();
  await page.getByRole('button', { name: 'Delete this walk' }).first().tap();
  await page.getByRole('button', { name: 'Delete the walk' }).tap();
  await expect(walks).toHaveCount(before - 1, { timeout: 30_000 });
  await page.getByRole('status').getByRole('button', { name: 'Undo' }).tap();
  await expect(walks).toHaveCount(before, { timeout: 30_000 });
});

test('a restored backup replaces the notebook, which is kept beside it', async ({ page, desk }) => {
  await desk.stop('SIGTERM');
  await headwalk('import', '--notebook', desk.notebook, demoFile('plantings.csv'));
  await desk.start('--today', '2026-09-16');
  await page.goto(desk.url);
  await page.evaluate(() => (location.hash = '#/backup'));
  await page.getByRole('button', { name: 'Back up now' }).tap();
  await expect(page.getByText(/^Backup made and checked: notebook-/)).toBeVisible();
  await headwalk('import', '--notebook', desk.notebook, demoFile('heads.csv'));

  const backup = page.getByRole('button', { name: / MB$/ });
  await expect(backup).toHaveCount(1);
  await backup.tap();
  await expect(page.getByText(/The notebook as it is now is set aside and kept, nothing is deleted/)).toBeVisible();
  await expectAccessible(page, 'restore');
  // A second thought changes nothing.
  await page.getByRole('button', { name: 'Cancel' }).tap();
  await backup.tap();
  await page.getByRole('button', { name: 'Restore this backup' }).tap();
  await expect(page.getByText('The backup is restored, with 12 changes.')).toBeVisible();
  await expectAccessible(page, 'restored');
  const beside = await readdir(dirname(desk.notebook));
  const aside = beside.find((name) => /^notebook-before-restore-\d{4}-\d\d-\d\d-\d{6}\.db$/.test(name));
  expect(aside, `set aside among ${beside.join(', ')}`).toBeDefined();
  await expect(page.getByText(new RegExp(`${aside}$`))).toBeVisible();
  // The app goes on with what the backup holds: no walk yet.
  await page.evaluate(() => (location.hash = '#/plantings'));
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(page.locator('a[href^="#/walk/"]')).toHaveCount(0);
});

test('a damaged notebook is replaced by a backup where the scout asks for that', async ({ page, desk }) => {
  await desk.stop('SIGTERM');
  await headwalk('import', '--notebook', desk.notebook, demoFile('plantings.csv'));
  await headwalk('backup', '--notebook', desk.notebook);
  await damage(desk.notebook);
  await desk.start();
  await page.goto(desk.url);
  await page.getByText('Or restore a backup').tap();
  await page.getByRole('button', { name: / MB$/ }).tap();
  await expectAccessible(page, 'damaged, a backup chosen');
  for (const button of await page.getByRole('button').all()) {
    expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(56);
  }
  await page.getByRole('button', { name: 'Restore this backup' }).tap();
  await expect(page.getByRole('heading', { name: 'The backup is restored' })).toBeVisible();
  await page.getByRole('button', { name: 'Go to plantings' }).tap();
  await page.evaluate(() => (location.hash = '#/plantings'));
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
});
