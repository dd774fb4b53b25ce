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

/**
 * Which of the two files it is, by its header. Anything that is not plainly a
 * planting file goes to the notebook as a head file, which says what is missing.
 */
export function kindOf(text: string): 'heads' | 'plantings' {
  const end = text.search(/[\r\n]/);
  const header = (end < 0 ? text : text.slice(0, end)).toLowerCase();
  const columns = new Set(header.split(',').map((column) => column.replaceAll('"', '').trim()));
  const ofHeads = columns.has('walked_on') || columns.has('reading');
  return !ofHeads && columns.has('planting') && (columns.has('hybrid') || columns.has('planted_on'))
    ? 'plantings'
    : 'heads';
}
