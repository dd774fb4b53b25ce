// A slider of the harvest screen under a finger, and what the page notes of it:
// questions asked and told, and the time from each input event to the painted
// answer, by the browser's own marks.

import type { CDPSession, Page } from '@playwright/test';
import { expect } from './season';

/** How much slower than this machine the phone is. */
const SLOWER = 4;

/** What the page has noted since it is watched. */
export interface Noted {
  /** From a move to its painted answer, in ms. */
  answers: number[];
  /** From a question that redraws nothing to the next frame, in ms. */
  empty: number[];
  asked: number;
  told: number;
}

/** The slider of the loss by standing, on a browser held to a quarter of its speed. */
export class Slider {
  readonly page: Page;
  readonly #screen: CDPSession;

  private constructor(page: Page, screen: CDPSession) {
    this.page = page;
    this.#screen = screen;
  }

  /** Opens the harvest screen of a planting by touch, watches it, and slows the browser down. */
  static async open(page: Page, url: string): Promise<Slider> {
    await page.goto(url);
    await page.getByRole('link', { name: /Creek 2/ }).tap();
    await page.getByRole('link', { name: 'Grain and harvest' }).tap();
    const slider = new Slider(page, await page.context().newCDPSession(page));
    await expect(slider.control).toBeVisible();
    await slider.control.scrollIntoViewIfNeeded();
    await page.waitForLoadState('networkidle');
    await watch(page);
    await slider.#screen.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    return slider;
  }

  get control() {
    return this.page.getByRole('slider', { name: 'Field loss per day' });
  }

  /** The curve that an answer draws anew. */
  get curve() {
    return this.page.locator('figure path.band').nth(1);
  }

  noted(): Promise<Noted> {
    return this.page.evaluate(() => (window as unknown as { noted: Noted }).noted);
  }

  /** Until no question has been under way for half a second. */
  async atRest(): Promise<void> {
    let before = -1;
    await expect
      .poll(
        async () => {
          const { asked, told } = await this.noted();
          const still = asked === told && asked === before;
          before = asked;
          return still;
        },
        { intervals: [500], timeout: 20_000 },
      )
      .toBe(true);
  }

  /** Puts a finger on the slider and moves it in steps; it stays down. */
  async drag(steps: number, afterEach: () => Promise<void>): Promise<void> {
    const box = await this.control.boundingBox();
    if (box === null) throw new Error('no slider is drawn');
    const at = (share: number) => [{ x: box.x + box.width * share, y: box.y + box.height / 2 }];
    await this.#touch('touchStart', at(0.2));
    for (let step = 1; step <= steps; step += 1) {
      await this.#touch('touchMove', at(0.2 + (0.6 * step) / steps));
      await afterEach();
    }
  }

  async lift(): Promise<void> {
    await this.#touch('touchEnd', []);
  }

  /** Asks for the settings and redraws one attribute of the curve. */
  async redrawEmpty(): Promise<void> {
    await this.page.evaluate(() => (window as unknown as { redrawEmpty: () => Promise<void> }).redrawEmpty());
  }

  async fullSpeed(): Promise<void> {
    await this.#screen.send('Emulation.setCPUThrottlingRate', { rate: 1 });
  }

  async #touch(type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]): Promise<void> {
    await this.#screen.send('Input.dispatchTouchEvent', { type, touchPoints });
  }
}

/** From here on the page notes questions, painted answers and empty redraws. */
async function watch(page: Page): Promise<void> {
  await page.evaluate(() => {
    const noted = { answers: [] as number[], empty: [] as number[], asked: 0, told: 0 };
    Object.assign(window, { noted });
    const painted = (then: () => void) =>
      requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = then;
        channel.port2.postMessage(null);
      });
    const since = (mark: string) => performance.measure(mark, mark).duration;
    const slider = document.querySelector('input[type=range]')!;
    // The last of the marks of one name counts: an answer that comes after a
    // later move is measured from that move, and only its first paint counts.
    let open = false;
    slider.addEventListener(
      'input',
      (event) => {
        performance.mark('moved', { startTime: event.timeStamp });
        open = true;
      },
      { capture: true },
    );
    const [, curve] = document.querySelectorAll('figure path.band');
    new MutationObserver(() => {
      if (!open) return;
      open = false;
      painted(() => noted.answers.push(since('moved')));
    }).observe(curve!, { attributes: true, attributeFilter: ['d'] });
    const fetched = window.fetch;
    window.fetch = async (...of) => {
      const counts = String(of[1]?.body).includes('what_if');
      if (counts) noted.asked += 1;
      try {
        return await fetched(...of);
      } finally {
        if (counts) noted.told += 1;
      }
    };
    Object.assign(window, {
      redrawEmpty: async () => {
        performance.mark('empty');
        const secret = sessionStorage.getItem('headwalk.secret') ?? '';
        const answer = await fetched('/call', {
          method: 'POST',
          headers: { 'Content-Type': 'application/json', 'X-Headwalk-Secret': secret },
          body: JSON.stringify({ op: 'settings' }),
        });
        await answer.json();
        curve!.setAttribute('data-turn', String(noted.empty.length));
        painted(() => noted.empty.push(since('empty')));
      },
    });
  });
}
