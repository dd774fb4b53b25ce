// The ways on for a file of the notebook that was made.

import type { MadeFile } from '../call';

/** Whether the system can hand this file to another app. */
export function canShare(made: MadeFile): boolean {
  if (made.kind !== 'held' || typeof navigator.canShare !== 'function') return false;
  return navigator.canShare({ files: [fileOf(made)] });
}

/** Hands the file to another app; giving up in the system's own sheet is no failure. */
export async function share(made: MadeFile): Promise<void> {
  if (made.kind !== 'held') return;
  try {
    await navigator.share({ files: [fileOf(made)] });
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'AbortError')) throw error;
  }
}

function fileOf(made: MadeFile & { kind: 'held' }): File {
  return new File([made.content], made.name, { type: made.content.type });
}

/** Saves the file as the browser saves downloads. */
export function save(made: MadeFile): void {
  if (made.kind !== 'held') return;
  const address = URL.createObjectURL(made.content);
  const link = document.createElement('a');
  link.href = address;
  link.download = made.name;
  link.click();
  // The browser has taken the content by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
