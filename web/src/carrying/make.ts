/** A job file, made: one zip, its pictures as they are, the rest packed. */
import { Zip, ZipDeflate, ZipPassThrough, strToU8 } from "fflate";
import type { Bytes } from "../wire";
import { ABOUT_TEXT } from "./about";
import { ABOUT, JOB, partName, type JobContents } from "./shapes";

export const MEDIA_TYPE = "application/zip";

export function makeJobFile(contents: JobContents, photos: ReadonlyMap<string, Bytes>): Blob {
  const chunks: Bytes[] = [];
  const zip = new Zip((error, chunk) => {
    if (error !== null) throw error;
    chunks.push(chunk);
  });
  add(zip, new ZipDeflate(JOB), strToU8(JSON.stringify(contents, null, 1)));
  add(zip, new ZipDeflate(ABOUT), strToU8(ABOUT_TEXT));
  for (const photo of contents.photos) {
    const bytes = photos.get(photo.hash);
    if (bytes !== undefined) add(zip, new ZipPassThrough(partName(photo)), bytes);
  }
  zip.end();
  return new Blob(chunks, { type: MEDIA_TYPE });
}

function add(zip: Zip, part: ZipDeflate | ZipPassThrough, bytes: Uint8Array): void {
  zip.add(part);
  part.push(bytes, true);
}
