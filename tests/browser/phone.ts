// A phone as the browser tests hold it: 390 by 844, touched, not clicked.

import type { PlaywrightTestOptions, PlaywrightWorkerOptions } from '@playwright/test';

export const phone: Partial<PlaywrightTestOptions & PlaywrightWorkerOptions> = {
  viewport: { width: 390, height: 844 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
  locale: 'en-US',
  timezoneId: 'America/Chicago',
  launchOptions: {
    executablePath: process.env['HEADWALK_CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  },
};
