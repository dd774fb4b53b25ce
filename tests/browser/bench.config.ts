// Not tests: what is measured on a screen, with the machine to itself.

import { defineConfig } from '@playwright/test';
import { phone } from './phone';

export default defineConfig({
  testDir: '.',
  testMatch: '*.bench.ts',
  outputDir: 'results',
  workers: 1,
  timeout: 120_000,
  reporter: 'list',
  use: phone,
});
