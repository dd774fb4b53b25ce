// The rule for which head to pull. It differs from stop to stop, but is always
// the same for one stop, so that it does not change when the screen is opened again.

export interface HeadRule {
  /** Paces from the stop before. */
  paces: number;
  /** Every so many-th plant. */
  every: number;
  side: 'left' | 'right';
}

/** The rule of a stop, drawn from its id. */
export function headRule(stop: string): HeadRule {
  const drawn = fnv1a(stop);
  return {
    paces: 30 + 5 * (drawn % 7),
    every: 2 + (Math.floor(drawn / 7) % 4),
    side: Math.floor(drawn / 28) % 2 === 0 ? 'left' : 'right',
  };
}

// FNV-1a, 32 bits: enough to spread ids over a few dozen rules.
function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) {
    hash ^= text.charCodeAt(at);
    hash = Math.imul(hash, 0x01000193);
  }
  return hash >>> 0;
}
