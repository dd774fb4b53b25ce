import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

import { firstLoad } from './first-load.ts';
import { ftl } from './ftl.ts';

// While the screens are being worked on, `npm run dev` passes calls on to a
// desk that runs beside it: HEADWALK_DESK=http://127.0.0.1:PORT npm run dev
const desk = process.env['HEADWALK_DESK'] ?? 'http://127.0.0.1:4178';

/** What the desk's own addresses begin with (its `server.rs`); all others are files. */
export const DESK_ROUTES = ['/call', '/crew', '/files', '/file', '/photo', '/archive', '/open'];

export default defineConfig({
  plugins: [svelte(), ftl(), firstLoad()],
  // The app's window and the desk both serve the screens from their root, but
  // relative addresses hold anywhere.
  base: './',
  build: {
    target: ['chrome110', 'safari16'],
    // Fonts and patterns stay files: the content policy allows no data: URLs.
    assetsInlineLimit: 0,
    // One style sheet: screens are loaded in any order, and rules stand in one.
    cssCodeSplit: false,
    reportCompressedSize: true,
  },
  server: {
    host: '127.0.0.1',
    // The catalogue of words lies with the Rust that reads it too.
    fs: { allow: ['.', '../src-tauri/words/catalog'] },
    // The desk refuses foreign hosts and origins, rightly.
    proxy: Object.fromEntries(
      DESK_ROUTES.map((route) => [route, { target: desk, changeOrigin: true, headers: { origin: desk } }]),
    ),
  },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
