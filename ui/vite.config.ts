import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// While the screens are being worked on, `npm run dev` passes calls on to a
// desk that runs beside it: HEADWALK_DESK=http://127.0.0.1:PORT npm run dev
const desk = process.env['HEADWALK_DESK'] ?? 'http://127.0.0.1:4178';

export default defineConfig({
  plugins: [svelte()],
  // The app's window and the desk both serve the screens from their root, but
  // relative addresses hold anywhere.
  base: './',
  build: {
    target: ['chrome110', 'safari16'],
    // Fonts and patterns stay files: the content policy allows no data: URLs.
    assetsInlineLimit: 0,
    reportCompressedSize: true,
  },
  server: {
    host: '127.0.0.1',
    proxy: {
      // The desk refuses foreign hosts and origins, rightly.
      '/call': { target: desk, changeOrigin: true, headers: { origin: desk } },
    },
  },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
