import { defineConfig } from '@playwright/test';
import { phone } from './phone';

export default defineConfig({
  testDir: '.',
  testMatch: '*.spec.ts',
  testIgnore: 'screenshots.spec.ts',
  outputDir: 'results',
  fullyParallel: true,
  workers: 2,
  // A test that hangs, not one that is slow: those that open every screen take minutes here.
  timeout: 600_000,
  // Two debug builds of the program on two cores beside the browsers.
  expect: { timeout: 20_000 },
  forbidOnly: true,
  reporter: 'list',
  use: { ...phone, screenshot: 'only-on-failure', trace: 'retain-on-failure' },
});
