// Making a file of the notebook: asked for, being made, made, or failed.

import { fileOut, type CallProblem, type MadeFile } from '../call';
import type { FileOut } from '../contract';
import { asCallProblem } from '../frame/asking.svelte';

export class FileMaking {
  state = $state<'idle' | 'making' | 'made'>('idle');
  made = $state.raw<MadeFile | null>(null);
  problem = $state.raw<CallProblem | null>(null);
  #latest = 0;

  async make(what: FileOut): Promise<void> {
    this.#latest += 1;
    const mine = this.#latest;
    this.state = 'making';
    this.problem = null;
    try {
      const made = await fileOut(what);
      if (mine !== this.#latest) return;
      this.made = made;
      this.state = 'made';
    } catch (error) {
      if (mine !== this.#latest) return;
      this.problem = asCallProblem(error);
      this.state = 'idle';
    }
  }

  /** Gives up waiting; a file that is done later is not shown. */
  stop(): void {
    this.#latest += 1;
    this.state = 'idle';
  }
}

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
