// Reading a QR code from a picture, where the platform can.

interface Detector {
  detect(picture: ImageBitmap): Promise<{ rawValue: string }[]>;
}
type DetectorClass = new (options: { formats: string[] }) => Detector;

const detector = (globalThis as { BarcodeDetector?: DetectorClass }).BarcodeDetector;

/** Whether this platform reads QR codes. */
export const readsQr = detector !== undefined;

/** What a picture's QR code says; null where there is none to be found. */
export async function qrIn(picture: Blob): Promise<string | null> {
  if (detector === undefined) return null;
  try {
    const bitmap = await createImageBitmap(picture);
    const found = await new detector({ formats: ['qr_code'] }).detect(bitmap);
    return found[0]?.rawValue ?? null;
  } catch {
    return null;
  }
}
