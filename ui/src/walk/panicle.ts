// Where the kernels of the drawn head are: a compact panicle, narrow at its tip,
// widest above its middle, and short at its base.

/** The drawing's own units. */
export const VIEW = { width: 172, height: 330 } as const;
/** Top and bottom of the grain in it. */
export const GRAIN = { top: 14, bottom: 298, middle: 68 } as const;
/** Width of the widest part with what hangs out of it. */
export const HEAD_WIDTH = 136;

const ROWS = 19;
const ACROSS = 16;
/** Size of a drawn kernel: a little more than its place, so that the head looks full. */
export const KERNEL_SIZE = 19;

export interface DrawnKernel {
  x: number;
  y: number;
  /** How far down the head, percent from the top: the share that just takes it in. */
  depth: number;
}

function halfWidth(part: number): number {
  return 7 + 49 * Math.sin(Math.PI * (0.05 + 0.9 * part)) ** 0.75;
}

/** All kernels, from the top down. */
export const KERNELS: readonly DrawnKernel[] = Array.from({ length: ROWS }, (_, row) => {
  const part = (row + 0.5) / ROWS;
  const y = GRAIN.top + part * (GRAIN.bottom - GRAIN.top);
  const half = halfWidth(part);
  const count = Math.max(2, Math.round((2 * half) / ACROSS) + (row % 2 === 0 ? 0 : 1));
  return Array.from({ length: count }, (_, at) => ({
    x: GRAIN.middle + (at - (count - 1) / 2) * ACROSS,
    y,
    depth: part * 100,
  }));
}).flat();

/** Height of a share in the drawing. */
export function heightOf(share: number): number {
  return GRAIN.top + (share / 100) * (GRAIN.bottom - GRAIN.top);
}
