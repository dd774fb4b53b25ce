// Playwright runs these tests, but the window is WebKit's and driven by its own driver.

import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: '.',
  testMatch: '*.spec.ts',
  outputDir: 'results',
  workers: 1,
  timeout: 600_000,
  forbidOnly: true,
  reporter: 'list',
});
