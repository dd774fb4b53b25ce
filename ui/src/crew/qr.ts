// Reading an invitation's QR code from a picture or a camera's picture.

/** Longest side of what is searched: enough for a code that fills a quarter of it. */
const PICTURE = 1_600;
const FRAME = 800;
/** What a picture may take that is searched once, milliseconds. */
const PATIENCE_MS = 2_000;

/** Whether a text is an invitation: an address, and the code behind its mark. */
export const isInvitation = (text: string): boolean => /^https?:\/\/[^\s#]+#join=[0-9A-Za-z-]{20,}$/.test(text.trim());

/** What the QR code in a picture says; null where there is none to be found. */
export async function qrIn(picture: Blob): Promise<string | null> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(picture);
  } catch {
    return null;
  }
  try {
    return await read(bitmap, bitmap, PICTURE, PATIENCE_MS);
  } finally {
    bitmap.close();
  }
}

/** The same for what a camera shows at this moment. */
export function qrOn(video: HTMLVideoElement): Promise<string | null> {
  const size = { width: video.videoWidth, height: video.videoHeight };
  return read(video, size, FRAME);
}

async function read(
  from: CanvasImageSource,
  { width, height }: { width: number; height: number },
  longest: number,
  timeLimit?: number,
): Promise<string | null> {
  // Only who scans needs the reader.
  const { decodeQR } = await import('qr/decode.js');
  const scale = Math.min(1, longest / Math.max(width, height, 1));
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (pen === null || canvas.width === 0 || canvas.height === 0) return null;
  pen.drawImage(from, 0, 0, canvas.width, canvas.height);
  try {
    return decodeQR(pen.getImageData(0, 0, canvas.width, canvas.height), timeLimit === undefined ? {} : { timeLimit });
  } catch {
    return null;
  }
}
