/** Reads a QR code from a photo. The reader is loaded only now; it lies on the phone with the app's other files. */

/** Pictures are made smaller until the code is found: large ones are slow, and small squares drown in their noise. */
const SIDES = [800, 1600, 400];

function pixelsOf(picture: ImageBitmap, side: number): ImageData | null {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  const [width, height] = [Math.max(1, Math.round(picture.width * scale)), Math.max(1, Math.round(picture.height * scale))];
  const canvas = document.createElement("canvas");
  Object.assign(canvas, { width, height });
  const paper = canvas.getContext("2d");
  paper?.drawImage(picture, 0, 0, width, height);
  return paper?.getImageData(0, 0, width, height) ?? null;
}

/** What the code in the picture says; null where none is found, or the file is no picture. */
export async function textFromPicture(file: Blob): Promise<string | null> {
  const [{ default: read }, picture] = await Promise.all([import("jsqr"), createImageBitmap(file).catch(noPicture)]);
  if (picture === null) return null;
  for (const side of SIDES) {
    const pixels = pixelsOf(picture, side);
    const found = pixels && read(pixels.data, pixels.width, pixels.height);
    if (found) return found.data;
  }
  return null;
}

function noPicture(): null {
  return null;
}
