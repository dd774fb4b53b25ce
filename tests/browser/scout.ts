// What every browser test starts from: a desk, a phone at its address, and the
// rule that no screen may log an error.

import AxeBuilder from '@axe-core/playwright';
import { type Page, expect, test as base } from '@playwright/test';
import { Desk } from './desk';

export { expect };

export const test = base.extend<{ desk: Desk; errors: string[] }>({
  desk: async ({}, use) => {
    const desk = await Desk.open();
    await desk.start();
    await use(desk);
    await desk.close();
  },
  errors: [
    async ({ page }, use) => {
      const errors: string[] = [];
      page.on('pageerror', (error) => errors.push(String(error)));
      page.on('console', (message) => {
        // A call that the notebook refuses, or that a killed desk never answers,
        // is told by the screens and looked for there.
        const refused = message.text().startsWith('Failed to load resource');
        if (message.type() === 'error' && !refused) errors.push(message.text());
      });
      await use(errors);
      expect(errors, 'errors in the browser').toEqual([]);
    },
    { auto: true },
  ],
});

/** No fault that axe can find, by WCAG 2.2 A and AA. */
export async function expectAccessible(page: Page, where: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  const told = violations.map(
    (fault) => `${fault.id}: ${fault.help}\n  ${fault.nodes.map((node) => node.html).join('\n  ')}`,
  );
  expect(told, `axe at ${where}`).toEqual([]);
}
