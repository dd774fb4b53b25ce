import { expect, test } from '@playwright/test';
import { expectWalk, walkAPlanting } from '../story/story';
import { App } from './app';
import { Mouse } from './mouse';

test('the same story in the app, which keeps its notebook in its data folder', async () => {
  const app = await App.install();
  try {
    await app.start();
    await walkAPlanting(new Mouse(app.driver));
    await app.stop();

    await app.start();
    const mouse = new Mouse(app.driver);
    await app.driver.wait(
      () =>
        app.driver.executeScript(
          'const row = [...document.querySelectorAll("li a")].find((each) => each.textContent.includes("Creek bottom")); row?.click(); return row !== undefined',
        ),
      15_000,
    );
    await app.driver.wait(
      () =>
        app.driver.executeScript(
          'const walk = document.querySelector("a[href^=\\"#/walk/\\"]"); walk?.click(); return walk !== null',
        ),
      15_000,
    );
    await expect.poll(() => mouse.heads()).not.toEqual([]);
    await expectWalk(mouse);
  } finally {
    await app.remove();
  }
});
