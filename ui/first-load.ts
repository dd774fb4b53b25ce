// What a phone loads before anything is shown, held to a limit: an old one takes a
// second for every hundred kilobytes.

import { gzipSync } from 'node:zlib';

import type { Plugin, Rolldown } from 'vite';

const LONGEST_GZIPPED = 90_000;
const LANGUAGE = /\/src\/messages\/(en|es)\.ts$/;

/** Fails a build whose page loads more JavaScript at first than it may. */
export function firstLoad(): Plugin {
  return {
    name: 'first-load',
    apply: 'build',
    generateBundle(_, bundle) {
      const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
      const first = new Set(chunks.filter((chunk) => chunk.isEntry));
      // A set is walked to what is added on the way.
      for (const chunk of first) {
        for (const each of chunks) if (chunk.imports.includes(each.fileName)) first.add(each);
      }
      const sizes = (of: Iterable<Rolldown.OutputChunk>) => [...of].map((chunk) => gzipSync(chunk.code).length);
      // Of the languages only one is loaded, before anything can be said.
      const words = sizes(chunks.filter((chunk) => LANGUAGE.test(chunk.facadeModuleId ?? '')));
      const bytes = sizes(first).reduce((sum, size) => sum + size, 0) + Math.max(...words);
      const said = `${(bytes / 1000).toFixed(1)} kB of JavaScript, gzipped, before the first screen`;
      if (bytes > LONGEST_GZIPPED) {
        this.error(`${said}: ${LONGEST_GZIPPED / 1000} is the limit; load what is not needed there with import()`);
      }
      this.info(said);
    },
  };
}
