// The walk screen stores the heads that were read, and no others.

import type { CDPSession, Page } from '@playwright/test';
import { expect, test } from './scout';
import { Thumb } from './thumb';

const LIKE = 'Same again: pliable, 60 %';

/** A walk with one head read at its first stop. */
async function readOne(page: Page, url: string): Promise<Thumb> {
  const thumb = new Thumb(page);
  await page.goto(url);
  await thumb.tap('link', 'Add a planting');
  await thumb.write('Name', 'Creek bottom');
  await thumb.tap('button', 'Save the planting');
  await thumb.tap('button', 'Start a walk');
  await thumb.tap('button', 'Start reading heads');
  await thumb.slide(60);
  await thumb.tap('button', 'Pliable');
  await expectHeads(thumb, 1);
  return thumb;
}

/** The row holds so many heads, all of them saved, and goes on to hold them. */
async function expectHeads(thumb: Thumb, count: number): Promise<void> {
  const saved = Array.from({ length: count }, (_, at) => `Head ${at + 1}: pliable, 60 %`);
  await expect.poll(() => thumb.heads()).toEqual(saved);
}

/** Middle of the button of this name. */
async function middle(page: Page, name: string): Promise<{ x: number; y: number }> {
  const box = await page.getByRole('button', { name, exact: true }).boundingBox();
  if (box === null) throw new Error(`${name} is not there`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Taps of one place, as far apart as these moments in milliseconds; timed by the screen itself. */
async function taps(page: Page, at: { x: number; y: number }, moments: readonly number[]): Promise<void> {
  const screen: CDPSession = await page.context().newCDPSession(page);
  const begun = Date.now();
  for (const moment of moments) {
    await page.waitForTimeout(Math.max(0, begun + moment - Date.now()));
    const timestamp = (begun + moment) / 1000;
    await screen.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [at], timestamp });
    await screen.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [], timestamp: timestamp + 0.03 });
  }
}

/** Time for a tap that does not count to show if it did. */
const SHOWN = 1000;

test('two taps of "same again" 150 ms apart are one head, 600 ms apart two', async ({ page, desk }) => {
  const thumb = await readOne(page, desk.url);
  const again = await middle(page, LIKE);
  await page.waitForTimeout(500);
  await taps(page, again, [0, 150]);
  await expectHeads(thumb, 2);
  await page.waitForTimeout(SHOWN);
  await expectHeads(thumb, 2);
  await taps(page, again, [0, 600]);
  await expectHeads(thumb, 4);
});

for (const panel of ['marks', 'advice'] as const) {
  test(`while the panel of ${panel} is open, "done" stands where "same again" stood`, async ({ page, desk }) => {
    const thumb = await readOne(page, desk.url);
    const again = await middle(page, LIKE);
    const opener = page.getByRole('button', { name: panel === 'marks' ? 'Mark' : /more (stop|head)|enough/i }).first();
    await opener.tap();
    await expect(opener).toHaveAttribute('aria-expanded', 'true');
    await expect(page.getByRole('button', { name: LIKE })).toHaveCount(0);
    await expect(page.getByRole('button', { name: 'Done', exact: true })).toHaveCount(1);
    expect(await middle(page, 'Done')).toEqual(again);

    // Twice, by a glove that trembles: the second falls on "same again" and is not meant.
    await taps(page, again, [0, 150]);
    await expect(opener).toHaveAttribute('aria-expanded', 'false');
    await page.waitForTimeout(SHOWN);
    await expectHeads(thumb, 1);
    await taps(page, again, [0]);
    await expectHeads(thumb, 2);
  });
}

test('a note that is still being typed is stored by "done"', async ({ page, desk }) => {
  await readOne(page, desk.url);
  await page.getByRole('button', { name: 'Mark', exact: true }).tap();
  await page.getByLabel('Note on this head').pressSequentially('low spot');
  await taps(page, await middle(page, 'Done'), [0]);
  await expect(page.getByRole('button', { name: /^Head 1: .*marked/ })).toBeVisible();
  await page.reload();
  await page.getByRole('button', { name: 'Mark', exact: true }).tap();
  await expect(page.getByLabel('Note on this head')).toHaveValue('low spot');
});

test('a panel of marks does not come back by itself at the next stop', async ({ page, desk }) => {
  const thumb = await readOne(page, desk.url);
  const mark = page.getByRole('button', { name: 'Mark', exact: true });
  await mark.tap();
  await thumb.tap('button', 'Next stop');
  await expect(page.getByRole('slider', { name: 'How far down the head' })).toBeVisible();
  await thumb.tap('button', LIKE);
  await expectHeads(thumb, 1);
  await expect(mark).toHaveAttribute('aria-expanded', 'false');
});

test('an empty last stop leaves no trace after the walk is finished', async ({ page, desk }) => {
  const thumb = await readOne(page, desk.url);
  await thumb.tap('button', 'Next stop');
  await expect(page.getByText('Stop 2 of 2 · 1 head in all')).toBeVisible();
  await thumb.tap('button', 'Finish');
  await page.getByRole('link', { name: /^Open this walk/ }).tap();
  await expect(page.getByText('Stop 1 of 1 · 1 head in all')).toBeVisible();
  await expectHeads(thumb, 1);
  // Opened again it is there to be read at, as it was left.
  await thumb.tap('button', 'Reopen');
  await expect(page.getByRole('button', { name: 'Later stop' })).toBeEnabled();
  await thumb.tap('button', 'Later stop');
  await thumb.tap('button', LIKE);
  await thumb.tap('button', 'Finish');
  await page.getByRole('link', { name: /^Open this walk/ }).tap();
  await expect(page.getByText('Stop 2 of 2 · 2 heads in all')).toBeVisible();
});
