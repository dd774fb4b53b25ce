// Files of the catalogue of words as modules: their text, without the comments, which
// are for translators and for the written declarations.

import type { Plugin } from 'vite';

/** Lets a module import an .ftl file as its text. */
export function ftl(): Plugin {
  return {
    name: 'ftl',
    transform(code, id) {
      if (!id.endsWith('.ftl')) return null;
      const text = code.replace(/^#.*\n/gm, '').replace(/\n{2,}/g, '\n');
      return { code: `export default ${JSON.stringify(text)};`, map: null };
    },
  };
}
