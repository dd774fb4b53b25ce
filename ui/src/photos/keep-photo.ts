// One picture from the camera or a file into the notebook.

import { v7 as uuidv7 } from 'uuid';

import { callWithFiles } from '../call';
import type { PhotoAdded, PhotoOf } from '../contract';

const IDS = new WeakMap<File, string>();

/** Keeps a picture. The same file tried again is the same photo. */
export async function keepPhoto(file: File, of: PhotoOf): Promise<PhotoAdded> {
  const id = IDS.get(file) ?? uuidv7();
  IDS.set(file, id);
  const { op: _, ...added } = await callWithFiles({ op: 'add_photo', id, of }, [file]);
  return added;
}
