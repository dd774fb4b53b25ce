// Every screen: no fault that axe finds, in both themes and both languages; no
// sideways scrolling on the narrowest phone or with text twice as large; room
// enough for a gloved finger.

import type { Page } from '@playwright/test';
import { SCREENS, expect, expectAccessible, test } from './season';

/** Opens each screen in turn, the planting's and the walk's by touch. */
async function eachScreen(page: Page, look: (name: string) => Promise<void>): Promise<void> {
  for (const [name, [address]] of SCREENS) {
    await page.evaluate((hash) => (location.hash = hash), address ?? '');
    await settled(page);
    await look(name);
  }
  await page.evaluate(() => (location.hash = '#/plantings'));
  await page.getByRole('link', { name: /Creek 3/ }).tap();
  await settled(page);
  await look('planting');
  const planting = await page.evaluate(() => location.hash);
  await page.evaluate((hash) => (location.hash = `${hash}/outlook`), planting);
  await expect(page.locator('figure path.behind')).toBeVisible();
  await settled(page);
  await look('outlook');
  await page.evaluate((hash) => (location.hash = `${hash}/stops`), planting);
  await expect(page.locator('svg .planned').first()).toBeVisible();
  await settled(page);
  await look('where to stop');
  await page.evaluate((hash) => (location.hash = `${hash}/photos`), planting);
  await settled(page);
  await look('photos');
  for (const name of ['sheet', 'history', 'compare']) {
    await page.evaluate((hash) => (location.hash = hash), `${planting}/${name}`);
    await expect(page.locator('button.main, article, select').first()).toBeVisible();
    await settled(page);
    await look(name);
  }
  for (const part of ['', '/moisture', '/ground', '/standing', '/terms', '/grain']) {
    await page.evaluate((hash) => (location.hash = hash), `${planting}/harvest${part}`);
    await settled(page);
    await page.waitForLoadState('networkidle');
    await look(`harvest${part}`);
  }
  await page.evaluate((hash) => (location.hash = `${hash}/basis`), planting);
  await expect(page.getByRole('radio').first()).toBeAttached();
  await settled(page);
  await look('what the outlook rests on');
  await page.locator('a[href^="#/hybrid/"]').tap();
  await expect(page.locator('.lines .band').first()).toBeVisible();
  await settled(page);
  await look('hybrid');
  await page.evaluate((hash) => (location.hash = hash), planting);
  await page.locator('a[href^="#/walk/"]').first().tap();
  await settled(page);
  await look('walk');
}

async function settled(page: Page): Promise<void> {
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false');
  await expect(page.getByRole('heading', { level: 1 })).not.toBeEmpty();
  // Whatever drops into place has dropped.
  await page.evaluate(() => Promise.all(document.getAnimations().map((each) => each.finished.catch(() => null))));
}

for (const colorScheme of ['light', 'dark'] as const) {
  test(`axe finds no fault, ${colorScheme}`, async ({ page, season }) => {
    // It goes through every screen.
    test.slow();
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.goto(season.url);
    await eachScreen(page, (name) => expectAccessible(page, `${name}, ${colorScheme}`));
  });
}

test('axe finds no fault in Spanish', async ({ browser, season }) => {
  const context = await browser.newContext({ locale: 'es-MX' });
  const page = await context.newPage();
  await page.goto(season.url);
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByText('Español').click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'es');
  await eachScreen(page, (name) => expectAccessible(page, `${name}, Spanish`));
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByText('English').click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
  await context.close();
});

test('nothing scrolls sideways on a narrow phone or with large text', async ({ page, season }) => {
  await page.goto(season.url);
  for (const [width, size] of [[320, '100%'], [360, '100%'], [430, '100%'], [390, '200%']] as const) {
    await page.setViewportSize({ width, height: 844 });
    await page.evaluate((text) => (document.documentElement.style.fontSize = text), size);
    await eachScreen(page, async (name) => {
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, `${name} at ${width} px and ${size} text`).toBeLessThanOrEqual(0);
    });
  }
});

test('every control has room for a finger in a glove', async ({ page, season }) => {
  await page.goto(season.url);
  await eachScreen(page, async (name) => {
    const small = await page.locator('button:visible, a[href]:visible, input:visible, select:visible').evaluateAll(
      (controls) =>
        controls
          .map((control) => ({ control, box: (control.closest('label') ?? control).getBoundingClientRect() }))
          // A link within a sentence is for reading, not for the field.
          .filter(({ control }) => control.tagName !== 'A' || getComputedStyle(control).display !== 'inline')
          .filter(({ box }) => box.height < 56 || box.width < 44)
          .map(({ control, box }) => `${control.outerHTML.slice(0, 120)}: ${box.width} x ${box.height}`),
    );
    expect(small, `small controls on ${name}`).toEqual([]);
  });
});
