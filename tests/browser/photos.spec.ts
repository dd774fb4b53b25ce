// Photos from the camera button to the viewer, and back out by undo.

import type { Page } from '@playwright/test';
import { expect, expectAccessible, test } from './scout';

/** A picture as a camera would give it, drawn by the browser itself. */
async function picture(page: Page, width: number, height: number): Promise<Buffer> {
  const base64 = await page.evaluate(
    ([across, down]) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [across!, down!];
      const drawn = canvas.getContext('2d')!;
      for (let at = 0; at < 400; at += 1) {
        drawn.fillStyle = `hsl(${20 + (at % 25)}, 60%, ${20 + ((at * 7) % 50)}%)`;
        drawn.fillRect((at * 97) % across!, (at * 53) % down!, 60, 60);
      }
      return canvas.toDataURL('image/jpeg', 0.9).split(',')[1]!;
    },
    [width, height],
  );
  return Buffer.from(base64, 'base64');
}

test('a photo of a stop is kept, shown, captioned, removed and brought back', async ({ page, desk }) => {
  await page.goto(desk.url);
  await page.getByRole('link', { name: 'Add a planting' }).tap();
  await page.getByLabel('Name').first().fill('Photo 1');
  await page.getByRole('button', { name: 'Save the planting' }).tap();
  await page.getByRole('button', { name: 'Start a walk' }).tap();
  await page.getByRole('button', { name: 'Start reading heads' }).tap();
  const camera = page.getByLabel('Photo of stop 1');
  const before = await page.getByRole('button', { name: 'Next stop' }).boundingBox();
  const file = { name: 'camera.jpg', mimeType: 'image/jpeg', buffer: await picture(page, 2000, 1500) };
  await camera.setInputFiles(file);
  await expect(page.getByText('The photo of stop 1 is saved.')).toBeVisible();
  // Nothing has moved under the thumb.
  expect(await page.getByRole('button', { name: 'Next stop' }).boundingBox()).toEqual(before);
  await expect(page.getByRole('button', { name: 'Undo the last photo' })).toBeEnabled();

  await page.getByRole('button', { name: 'Back' }).tap();
  await page.getByRole('link', { name: 'Photos (1)' }).tap();
  await page.locator('a[href^="#/photo/"]').first().tap();
  const shown = page.locator('.picture.whole img');
  await expect(shown).toHaveJSProperty('complete', true);
  expect(await shown.evaluate((image: HTMLImageElement) => [image.naturalWidth, image.naturalHeight])).toEqual([
    1600, 1200,
  ]);
  await page.getByLabel('What it shows').fill('mold on the tip');
  await page.getByRole('button', { name: 'Save the caption' }).tap();
  await expect(page.getByAltText(/Stop 1.*: mold on the tip/)).toBeVisible();
  await expectAccessible(page, 'a photo');

  await page.getByRole('button', { name: 'Delete this photo' }).tap();
  await expect(page.getByText('No photos yet.')).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).tap();
  await expect(page.locator('a[href^="#/photo/"]')).toHaveCount(1);
  await page.evaluate(() => (location.hash = '#/photos/storage'));
  await expect(page.getByText(/1 of them is on this device only/)).toBeVisible();
  await expect(page.getByRole('button', { name: /^Free/ })).toHaveCount(0);
});

test('what is no picture, and one that is cut off, are refused clearly', async ({ page, desk }) => {
  await page.goto(desk.url);
  await page.getByRole('link', { name: 'Add a planting' }).tap();
  await page.getByLabel('Name').first().fill('Photo 2');
  await page.getByRole('button', { name: 'Save the planting' }).tap();
  await page.getByRole('link', { name: 'Photos', exact: true }).tap();
  const whole = await picture(page, 800, 600);
  for (const [name, buffer, words] of [
    ['notes.txt', Buffer.from('not a picture'), 'no picture that can be read'],
    ['half.jpg', whole.subarray(0, whole.length / 2), 'cut off or damaged'],
  ] as const) {
    await page.locator('input[type=file]').last().setInputFiles({ name, mimeType: 'image/jpeg', buffer });
    await expect(page.getByRole('alert')).toContainText(words);
  }
  await expect(page.getByText('No photos yet.')).toBeVisible();
});
