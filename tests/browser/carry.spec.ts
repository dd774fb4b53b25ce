// What leaves the phone and comes back: a sheet for the grower, the notebook on a
// new phone, and a change that is taken back.

import { execFileSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { walkAPlanting } from '../story/story';
import { Desk, headwalk } from './desk';
import { held } from './held';
import { expect, expectAccessible, test } from './scout';
import { Thumb } from './thumb';

async function open(page: Page, name: RegExp): Promise<void> {
  await page.getByRole('link', { name }).tap();
}

test('hand the grower a sheet', async ({ page, desk }) => {
  await page.goto(desk.url);
  await walkAPlanting(new Thumb(page));
  await open(page, /^Field sheet for the grower/);
  await expectAccessible(page, 'the field sheet');
  await page.getByText('Español', { exact: true }).tap();
  await page.getByText('A4', { exact: true }).tap();
  await page.getByRole('button', { name: 'Make the field sheet' }).tap();
  await expect(page.getByText(/creek-bottom-.*\.pdf is ready: \d+ KB/)).toBeVisible();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  const saved = await download;
  expect(saved.suggestedFilename()).toMatch(/^creek-bottom-\d{4}-\d\d-\d\d\.pdf$/);
  const text = execFileSync('pdftotext', ['-layout', await saved.path(), '-'], { encoding: 'utf8' });
  expect(text).toContain('Creek bottom');
  expect(text).toContain('Hoja de campo');
  expect(text).toContain('25 panojas en 5 paradas');
});

test('move my notebook to a new phone', async ({ page, desk }, info) => {
  await page.goto(desk.url);
  await walkAPlanting(new Thumb(page));
  await open(page, /^More/);
  await open(page, /^Settings/);
  await page.getByLabel(/^Your name|scout/i).first().fill('Ana');
  await page.keyboard.press('Tab');
  await page.evaluate(() => (location.hash = '#/more'));
  await open(page, /^Export/);
  await page.getByRole('button', { name: 'Export' }).tap();
  await expect(page.getByText(/headwalk-.*\.zip is ready/)).toBeVisible();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  const archive = info.outputPath('notebook.zip');
  await (await download).saveAs(archive);

  const fresh = await Desk.open();
  try {
    await fresh.start();
    await page.goto(fresh.url);
    await page.evaluate(() => (location.hash = '#/archive'));
    // A spoiled file first: one line, and nothing stored.
    const bytes = await readFile(archive);
    const spoiled = { name: 'half.zip', mimeType: 'application/zip', buffer: bytes.subarray(0, bytes.length / 2) };
    await page.locator('input[type=file]').setInputFiles(spoiled);
    await expect(page.getByRole('alert')).toContainText('cut off');
    await page.locator('input[type=file]').setInputFiles(archive);
    await expect(page.getByText('New here: 1 planting, 1 walk, 25 heads')).toBeVisible();
    await expectAccessible(page, 'the review of an archive');
    await page.getByRole('button', { name: 'Import', exact: true }).tap();
    await expect(page.getByRole('heading', { name: 'The notebook is imported.' })).toBeVisible();
    await page.getByRole('link', { name: 'Go to plantings' }).tap();
    await open(page, /Creek bottom/);
    await expect(page.getByRole('link', { name: /^Open this walk/ })).toHaveCount(1);
    // A second time there is nothing to import.
    await page.evaluate(() => (location.hash = '#/archive'));
    await page.locator('input[type=file]').setInputFiles(archive);
    await expect(page.getByText('Everything in this file is already here')).toBeVisible();
    // Out again on the new phone, the heads are the same rows.
    await fresh.stop('SIGTERM');
    await desk.stop('SIGTERM');
    const heads = (notebook: string) => headwalk('export', 'heads', '--notebook', notebook, '--to', '-');
    expect(await heads(fresh.notebook)).toEqual(await heads(desk.notebook));
  } finally {
    await fresh.close();
  }
});

test('who changed this, and undo it', async ({ page, desk }) => {
  const thumb = new Thumb(page);
  await page.goto(desk.url);
  await walkAPlanting(thumb);
  // What is edited cannot be written over before it is shown.
  await held(page, 'names', async () => {
    await page.getByRole('link', { name: 'Edit' }).tap();
    await expect(page.getByRole('heading', { level: 1, name: 'Edit planting' })).toBeVisible();
    await expect(page.getByText('Reading the notebook')).toBeVisible();
    await expect(page.getByLabel('Name')).toHaveCount(0);
    await expect(page.getByRole('button', { name: 'Save', exact: true })).toHaveCount(0);
  });
  await expect(page.getByLabel('Name').first()).toHaveValue('Creek bottom');
  await thumb.write('Name', 'Creek top');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await expect(page.getByRole('heading', { level: 1, name: 'Creek top' })).toBeVisible();

  await open(page, /^History/);
  await expect(page.getByText('Name: Creek top (was: Creek bottom)')).toBeVisible();
  await expectAccessible(page, 'the history');
  await page.getByRole('button', { name: /^Undo this: Planting edited/ }).tap();
  await expect(page.getByRole('heading', { name: 'Undone' }).first()).toBeVisible();
  await expect(page.getByText('Name: Creek bottom (was: Creek top)')).toBeVisible();
  await page.evaluate(() => history.back());
  await expect(page.getByRole('heading', { level: 1, name: 'Creek bottom' })).toBeVisible();

  // Long histories come page by page, down to the beginning.
  await open(page, /^History/);
  await page.getByRole('button', { name: 'Show older changes' }).tap();
  await expect(page.getByRole('heading', { name: 'Planting added' })).toBeVisible();

  // A planting is found by the beginning of its hybrid.
  await page.evaluate(() => (location.hash = '#/search'));
  await page.getByRole('searchbox').fill('EARL');
  await expect(page.getByRole('link', { name: /Creek bottom.*Early tan 1/ })).toBeVisible();
  await page.getByRole('searchbox').fill('zzz');
  await expect(page.getByText(/^Nothing starts with/)).toBeVisible();
});

test('a heat-unit table of one’s own is shown before it can be written over', async ({ page, desk }) => {
  await page.goto(desk.url);
  await page.evaluate(() => (location.hash = '#/heat-sets'));
  await page.locator('a[href="#/heat-set/new"]').tap();
  // The list has summaries too: the form is here once its name is.
  await expect(page.getByLabel('Name', { exact: true })).toBeVisible();
  await page.locator('summary').tap();
  await page.getByText('US 50/100').tap();
  await page.getByLabel('Name', { exact: true }).fill('Ours');
  await page.getByLabel(/^Where the table comes from/).fill('own counts');
  await page.locator('button.main').tap();
  const own = page.locator('a[href^="#/heat-set/"]:not([href$="new"])');
  await expect(own).toBeVisible();
  await held(page, 'heat_sets', async () => {
    await own.tap();
    await expect(page.getByText('Reading the notebook')).toBeVisible();
    await expect(page.getByLabel('Name', { exact: true })).toHaveCount(0);
    await expect(page.locator('button[type=submit]')).toHaveCount(0);
  });
  await expect(page.getByLabel('Name', { exact: true })).toHaveValue('Ours');
});
