/**
 * A picture from the camera or the gallery made ready for the job: upright, small enough to send from a basement, and
 * drawn anew, so that nothing of what the camera wrote beside the pixels (where it was, above all) is left in it.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import type { Bytes, OwnPhoto } from "../wire";

const LONGEST_EDGE = 2048;
const THUMBNAIL_EDGE = 320;
const THUMBNAIL_QUALITY = 0.75;
/** Bytes that a picture should not have more of; the qualities are tried until it has not. */
const ENOUGH_BYTES = 500_000;
const QUALITIES: readonly number[] = [0.85, 0.75, 0.65, 0.5];

/** The file is no picture that this browser can show. */
export class NoPictureError extends Error {}

/** Throws NoPictureError. */
export async function preparePhoto(file: Blob): Promise<OwnPhoto> {
  const source = await opened(file);
  try {
    const large = drawn(source, LONGEST_EDGE);
    const bytes = await smallEnough(large);
    const thumbnail = await encoded(drawn(source, THUMBNAIL_EDGE), THUMBNAIL_QUALITY);
    const hash = bytesToHex(sha256(bytes));
    return { hash, media_type: "image/jpeg", width: large.width, height: large.height, bytes, thumbnail };
  } finally {
    source.close();
  }
}

async function opened(file: Blob): Promise<ImageBitmap> {
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch (error) {
    throw new NoPictureError("The file is no picture that this browser can show.", { cause: error });
  }
}

/** Never made larger than it is. What is clear becomes white, for a JPEG knows no clear. */
function drawn(source: ImageBitmap, longestEdge: number): HTMLCanvasElement {
  const scale = Math.min(1, longestEdge / Math.max(source.width, source.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(source.width * scale));
  canvas.height = Math.max(1, Math.round(source.height * scale));
  const pen = canvas.getContext("2d");
  if (pen === null) throw new NoPictureError("This browser has no room left to draw the picture.");
  pen.fillStyle = "white";
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(source, 0, 0, canvas.width, canvas.height);
  return canvas;
}

async function smallEnough(canvas: HTMLCanvasElement): Promise<Bytes> {
  let bytes = await encoded(canvas, QUALITIES[0] ?? 1);
  for (const quality of QUALITIES.slice(1)) {
    if (bytes.length <= ENOUGH_BYTES) return bytes;
    bytes = await encoded(canvas, quality);
  }
  return bytes;
}

async function encoded(canvas: HTMLCanvasElement, quality: number): Promise<Bytes> {
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));
  if (blob === null) throw new NoPictureError("This browser could not write the picture.");
  return new Uint8Array(await blob.arrayBuffer());
}
