// A pointer in the app's window, through WebKit's driver.

import type { WebDriver, WebElement } from 'selenium-webdriver';
import type { Hand } from '../story/story';

const PATIENCE = 15_000;
// A button counts a second press within 400 ms as the glove's; no scout means one so soon.
const BETWEEN = 450;

// Runs in the page: the visible controls of a role that have this name.
const NAMED = `
  const [role, name] = arguments;
  const nameOf = (each) => (each.getAttribute('aria-label') ?? each.textContent).replace(/\\s+/g, ' ').trim();
  const all = document.querySelectorAll(role === 'link' ? 'a[href]' : 'button, [role=button]');
  return [...all].find((each) => nameOf(each) === name && !each.disabled && each.getClientRects().length > 0) ?? null;
`;

const FIELD = `
  const label = [...document.querySelectorAll('label')].find((each) => each.textContent.trim().startsWith(arguments[0]));
  return label ? (label.htmlFor ? document.getElementById(label.htmlFor) : label.querySelector('input')) : null;
`;

export class Mouse implements Hand {
  touches = 0;
  #lastTap = 0;

  constructor(private readonly driver: WebDriver) {}

  async tap(role: 'button' | 'link', name: string): Promise<void> {
    const control = await this.find(NAMED, role, name);
    await this.driver.executeScript('arguments[0].scrollIntoView({ block: "nearest" })', control);
    await this.driver.sleep(Math.max(0, this.#lastTap + BETWEEN - Date.now()));
    await this.driver.actions().move({ origin: control }).press().release().perform();
    this.#lastTap = Date.now();
    this.touches += 1;
  }

  async slide(percent: number): Promise<void> {
    const grain = await this.find('return document.querySelector("[role=slider] .extent")');
    const { x, y, width, height } = await this.driver.executeScript<DOMRect>(
      'const { x, y, width, height } = arguments[0].getBoundingClientRect(); return { x, y, width, height };',
      grain,
    );
    const across = Math.round(x + width / 2);
    const from = percent > 50 ? y : y + height;
    const to = y + (height * percent) / 100;
    await this.driver
      .actions()
      .move({ x: across, y: Math.round(from) })
      .press()
      .move({ x: across, y: Math.round((from + to) / 2) })
      .move({ x: across, y: Math.round(to) })
      .release()
      .perform();
    this.touches += 1;
  }

  async write(label: string, text: string): Promise<void> {
    const field = await this.find(FIELD, label);
    await field.clear();
    await field.sendKeys(text);
  }

  async heads(): Promise<string[]> {
    return this.driver.executeScript(
      'return [...document.querySelectorAll("ul[aria-label^=\\"Heads of stop\\"] button")].map((each) => each.getAttribute("aria-label"))',
    );
  }

  async bandWidth(): Promise<number> {
    return this.driver.executeScript(
      'return document.querySelector(".stage-line rect.band")?.getBoundingClientRect().width ?? 0',
    );
  }

  async heading(): Promise<string> {
    return this.driver.executeScript('return document.querySelector("h1")?.textContent.trim() ?? ""');
  }

  async reload(): Promise<void> {
    await this.driver.navigate().refresh();
  }

  /** The element that the script gives, once it gives one. */
  private async find(script: string, ...given: string[]): Promise<WebElement> {
    return this.driver.wait(
      () => this.driver.executeScript<WebElement | null>(script, ...given),
      PATIENCE,
      `not on the screen: ${given.join(' ')}`,
    ) as Promise<WebElement>;
  }
}
