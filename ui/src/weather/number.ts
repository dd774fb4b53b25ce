/** A number as people type it, with a point or a comma; null for anything else. */
export function numberFrom(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
}
