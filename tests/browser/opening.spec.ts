// Screens are loaded when they are opened: what is seen in the meantime, what when
// that fails, and where a screen stands when it opens.

import type { Page } from '@playwright/test';
import { expect, test } from './season';

const scrolled = (page: Page) => page.evaluate(() => Math.round(scrollY));
const open = (page: Page, address: string) => page.evaluate((hash) => void (location.hash = hash), address);

test('a screen that is long in coming says so, and one that fails comes when asked again', async ({ page, season }) => {
  let there = false;
  await page.route(/WeatherFileScreen.*\.js/, async (route) => {
    if (!there) return route.abort();
    await new Promise((done) => setTimeout(done, 2000));
    return route.continue();
  });
  await page.goto(season.url);
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
  await open(page, '#/weather/file');
  await expect(page.getByRole('alert')).toContainText('Try again');
  there = true;
  await page.getByRole('button', { name: 'Try again' }).tap();
  await expect(page.locator('main .waiting')).toBeVisible();
  await expect(page.locator('main input[type=file]')).toBeAttached();
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false');
});

test('a screen opens at its top, or at what its address names, and is come back to where it was left', async ({
  page,
  season,
}) => {
  await page.goto(season.url);
  await expect(page.getByRole('link', { name: /Creek 3/ })).toBeVisible();
  // Put in order for good: rows that move take the place on the screen with them.
  await expect(page.locator('main')).not.toContainText('Computing the stage');
  await expect(page.locator('main .progress')).toHaveCount(0);
  await page.evaluate(() => scrollTo(0, 500));
  await expect.poll(() => scrolled(page)).toBe(500);
  await open(page, '#/key');
  await expect(page.locator('#key-pliable')).toBeAttached();
  await expect.poll(() => scrolled(page)).toBe(0);
  await open(page, '#/key/pliable');
  await expect(page.locator('#key-pliable.asked')).toBeInViewport();
  await page.goBack();
  await page.goBack();
  await expect.poll(() => scrolled(page)).toBe(500);
});

test('a screen that asks anew when it is come back to is scrolled back once it is answered', async ({ page, season }) => {
  await page.goto(season.url);
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  await expect(page.locator('a[href^="#/walk/"]').first()).toBeVisible();
  await page.evaluate(() => scrollTo(0, 300));
  await expect.poll(() => scrolled(page)).toBe(300);
  await open(page, '#/more');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('More');
  await expect.poll(() => scrolled(page)).toBe(0);
  await page.goBack();
  await expect.poll(() => scrolled(page)).toBe(300);
});
