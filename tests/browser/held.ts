// Answers held back, to look at a screen that still waits for one.

import type { Page } from '@playwright/test';

/** Holds back the answers to `op` while `look` looks, then lets them go. */
export async function held(page: Page, op: string, look: () => Promise<void>): Promise<void> {
  let letGo = (): void => undefined;
  const looked = new Promise<void>((resolve) => (letGo = resolve));
  await page.route('**/call', async (route) => {
    if (route.request().postData()?.includes(`"${op}"`)) await looked;
    await route.continue();
  });
  try {
    await look();
  } finally {
    letGo();
  }
  await page.waitForLoadState('networkidle');
  await page.unroute('**/call');
}
