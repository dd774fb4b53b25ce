import { expectWalk, walkAPlanting } from '../story/story';
import { expect, expectAccessible, test } from './scout';
import { Thumb } from './thumb';

test('a scout walks a planting, and every head is there after a reload', async ({ page, desk }) => {
  await page.goto(desk.url);
  await walkAPlanting(new Thumb(page));
  await expectAccessible(page, 'the planting after a walk');
});

test('every head is there after the desk was killed and started again', async ({ page, desk }) => {
  const thumb = new Thumb(page);
  await page.goto(desk.url);
  await walkAPlanting(thumb);
  await desk.stop('SIGKILL');
  await desk.start();
  await page.goto(desk.url);
  await page.getByRole('link', { name: /Creek bottom/ }).tap();
  await page.getByRole('link', { name: /^Open this walk/ }).tap();
  await expectWalk(thumb);
});

test('the secret is not left in the address bar', async ({ page, desk }) => {
  await page.goto(desk.url);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  expect(desk.url).toContain('secret=');
  expect(page.url()).not.toContain('secret');
});
