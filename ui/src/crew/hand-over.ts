// A file out of the app: shared where the platform shares files, else saved.

/** True unless the person gave it up. */
export async function handOver(file: File): Promise<boolean> {
  const shared = { files: [file] };
  if (navigator.canShare?.(shared)) {
    try {
      await navigator.share(shared);
      return true;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
      // Refused by the platform after all: saved instead.
    }
  }
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has to have read it by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return true;
}
