// A thumb on a phone's screen: real touch events, counted.

import type { CDPSession, Locator, Page } from '@playwright/test';
import type { Hand } from '../story/story';

// A button counts a second press within 400 ms as the glove's; no scout means one so soon.
const BETWEEN = 450;

export class Thumb implements Hand {
  touches = 0;
  #screen: CDPSession | undefined;
  #lastTap = 0;

  constructor(private readonly page: Page) {}

  async tap(role: 'button' | 'link', name: string): Promise<void> {
    await this.page.waitForTimeout(Math.max(0, this.#lastTap + BETWEEN - Date.now()));
    await this.page.getByRole(role, { name, exact: true }).tap();
    this.#lastTap = Date.now();
    this.touches += 1;
  }

  async slide(percent: number): Promise<void> {
    const head = this.page.getByRole('slider', { name: 'How far down the head' });
    const grain = await box(head.locator('.extent'));
    const x = grain.x + grain.width / 2;
    const to = grain.y + (grain.height * percent) / 100;
    // From an end of the head, far enough to be a slide and not a tap.
    const from = percent > 50 ? grain.y : grain.y + grain.height;
    this.#screen ??= await this.page.context().newCDPSession(this.page);
    const screen = this.#screen;
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', y?: number) =>
      screen.send('Input.dispatchTouchEvent', { type, touchPoints: y === undefined ? [] : [{ x, y }] });
    await touch('touchStart', from);
    await touch('touchMove', (from + to) / 2);
    await touch('touchMove', to);
    await touch('touchEnd');
    this.touches += 1;
  }

  async write(label: string, text: string): Promise<void> {
    await this.page.getByLabel(label).first().fill(text);
  }

  async heads(): Promise<string[]> {
    return this.page
      .getByRole('list', { name: /^Heads of stop/ })
      .getByRole('button')
      .evaluateAll((buttons) => buttons.map((button) => button.getAttribute('aria-label') ?? ''));
  }

  async bandWidth(): Promise<number> {
    const band = this.page.locator('.stage-line rect.band').first();
    return (await band.count()) === 0 ? 0 : (await box(band)).width;
  }

  async heading(): Promise<string> {
    return (await this.page.getByRole('heading', { level: 1 }).textContent())?.trim() ?? '';
  }

  async reload(): Promise<void> {
    await this.page.reload();
  }
}

async function box(shape: Locator): Promise<{ x: number; y: number; width: number; height: number }> {
  const found = await shape.boundingBox();
  if (found === null) throw new Error('it is not drawn');
  return found;
}
