// The text of a chosen file, or why it has none.

export type Read = { kind: 'text'; text: string } | { kind: 'notText' } | { kind: 'unreadable' };

/** Reads a file as UTF-8 and nothing else: a guess at another encoding would spoil names. */
export async function textOf(file: Pick<Blob, 'arrayBuffer'>): Promise<Read> {
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { kind: 'unreadable' };
  }
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { kind: 'notText' };
  }
}
