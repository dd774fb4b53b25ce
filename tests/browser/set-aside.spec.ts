// Entries of a device whose clock is ahead: said on the screens, and mended there.

import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { Desk, headwalk } from './desk';
import { expect, expectAccessible, test } from './scout';
import { Thumb } from './thumb';

const go = (page: Page, address: string) => page.evaluate((hash) => (location.hash = hash), address);

async function addPlanting(page: Page, desk: Desk): Promise<void> {
  const thumb = new Thumb(page);
  await page.goto(desk.url);
  await thumb.tap('link', 'Add a planting');
  await thumb.write('Name', 'Creek bottom');
  await thumb.tap('button', 'Save the planting');
  await expect(page.getByRole('button', { name: 'Start a walk' })).toBeVisible();
}

test('what this device recorded with its clock ahead is recorded again', async ({ page, desk }) => {
  await page.goto(desk.url);
  await go(page, '#/backup');
  await expect(page.getByRole('heading', { name: 'Is the notebook intact?' })).toBeVisible();
  await expect(page.getByRole('link', { name: /Set aside|Not counted/ })).toHaveCount(0);

  await desk.stop('SIGTERM');
  await desk.start('--today', '2090-06-01');
  await addPlanting(page, desk);
  await desk.stop('SIGTERM');
  await desk.start('--today', '2089-12-01');
  await page.goto(desk.url);
  await go(page, '#/backup');
  await page.getByRole('link', { name: 'Not counted on other devices: 1 entry' }).tap();
  await expect(page.getByRole('heading', { name: 'The clock of this device was ahead' })).toBeVisible();
  await expectAccessible(page, 'what is set aside, of this device');
  await page.getByRole('button', { name: 'Record again now' }).tap();
  await expect(page.getByText('1 entry was recorded again and counts now.')).toBeVisible();
  await expect(page.getByText('It was recorded again and counts there')).toBeVisible();
  await go(page, '#/plantings');
  await expect(page.getByRole('link', { name: /Creek bottom/ })).toHaveCount(1);
});

test('what waits from another device is listed with its time, and counts when asked to', async ({ page, desk }) => {
  const ahead = await Desk.open();
  // Not so far that it would be recorded again there without being asked.
  const inDays = new Date(Date.now() + 100 * 24 * 60 * 60 * 1000);
  await ahead.start('--today', inDays.toISOString().slice(0, 10));
  await addPlanting(page, ahead);
  await ahead.stop('SIGTERM');
  const archive = join(ahead.notebook, '../all.zip');
  await headwalk('export', 'archive', '--notebook', ahead.notebook, '--to', archive);
  await desk.stop('SIGTERM');
  await headwalk('import', '--notebook', desk.notebook, archive);
  await desk.start();
  await ahead.close();

  await page.goto(desk.url);
  await expect(page.getByRole('link', { name: 'Add a planting' })).toBeVisible();
  await expect(page.getByRole('link', { name: /Creek bottom/ })).toHaveCount(0);
  await go(page, '#/backup');
  await page.getByRole('link', { name: 'Set aside: 1 entry' }).tap();
  await expect(page.getByRole('heading', { name: 'Waiting: another device' })).toBeVisible();
  await expect(page.getByText(/^Counts from \w+ \d+, 20\d\d/)).toBeVisible();
  await expectAccessible(page, 'what is set aside, of another device');
  await page.getByRole('button', { name: 'Record again now' }).tap();
  await expect(page.getByText('1 entry was recorded again and counts now.')).toBeVisible();
  await go(page, '#/plantings');
  await expect(page.getByRole('link', { name: /Creek bottom/ })).toBeVisible();
});
