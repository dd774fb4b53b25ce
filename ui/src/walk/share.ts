// The share of a head from where a thumb is on its drawing.

/** Smallest and largest share, percent. */
export const LEAST = 1;
export const MOST = 100;

/** A tap says tenths, a drag twentieths; finer than that no eye judges in a field. */
export const TAP_STEP = 10;
export const DRAG_STEP = 5;

/** A finger that has moved less than this many pixels has tapped. */
export const TAP_SLOP = 8;

/** Share at a height on the screen, for a head drawn from `top` to `bottom`. */
export function shareAt(y: number, top: number, bottom: number, step: number): number {
  const percent = ((y - top) / (bottom - top)) * 100;
  const stepped = Math.round(percent / step) * step;
  return Math.min(MOST, Math.max(step, stepped));
}

/** The next share up or down, at whole steps; the last step down is to 1. */
export function stepShare(share: number, direction: 1 | -1, step: number): number {
  const next = direction > 0 ? Math.floor(share / step) * step + step : Math.ceil(share / step) * step - step;
  return Math.min(MOST, Math.max(LEAST, next));
}

/** What a key does to the share of a slider; null for keys that are none of its. */
export function shareByKey(key: string, share: number | null): number | null {
  const from = share ?? 50;
  switch (key) {
    case 'ArrowDown':
    case 'ArrowRight':
      return Math.min(MOST, from + 1);
    case 'ArrowUp':
    case 'ArrowLeft':
      return Math.max(LEAST, from - 1);
    case 'PageDown':
      return stepShare(from, 1, TAP_STEP);
    case 'PageUp':
      return stepShare(from, -1, TAP_STEP);
    case 'Home':
      return LEAST;
    case 'End':
      return MOST;
    default:
      return null;
  }
}
