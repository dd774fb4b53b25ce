// The text of a file that is to be brought in.

import { say } from '../messages';
import { textOf } from './chosen-file';
import { Unusable } from './taking.svelte';

/** The text of a file that must be text, or one line that says why it is not. */
export async function usableText(file: File | undefined): Promise<string> {
  if (file === undefined) throw new Unusable(say.importing.unreadable(''));
  const read = await textOf(file);
  if (read.kind !== 'text') throw new Unusable(say.importing[read.kind](file.name));
  return read.text;
}
