// Files and words out of the app: handed to another one, or saved. The system may
// refuse that, and a person may give it up in the system's own sheet.

/** Whether the system can hand this file to another app. */
export const canShare = (file: File): boolean => navigator.canShare?.({ files: [file] }) ?? false;

/** Hands something to another app; false where the person gave it up. */
export async function share(what: ShareData): Promise<boolean> {
  try {
    await navigator.share(what);
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return false;
    throw error;
  }
}

/** Saves a file as the browser saves downloads. */
export function save(file: File): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has to have read it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
