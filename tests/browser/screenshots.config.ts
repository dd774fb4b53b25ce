// Not a test: takes the pictures of the screens into ui/screenshots.

import { defineConfig } from '@playwright/test';
import { phone } from './phone';

export default defineConfig({
  testDir: '.',
  testMatch: 'screenshots.spec.ts',
  outputDir: 'results',
  workers: 1,
  timeout: 120_000,
  reporter: 'list',
  expect: { timeout: 30_000 },
  // Small enough to lie in the repository.
  use: { ...phone, deviceScaleFactor: 1 },
});
