/** Pictures that the office has not got whole, as text for the file of everything unsent, read without the app's library. */
import { answered, whyOf, type Missing, type Raw } from "./raw";

export interface UnsentPicture {
  /** SHA-256 of the bytes, hex. */
  readonly hash: string;
  /** Base64. */
  readonly bytes: string;
  /** Base64; null where there is none. */
  readonly thumbnail: string | null;
}

/** Bytes of pictures in one file: more than that no phone can hold as one text. */
const MOST_BYTES = 100_000_000;

/** One after the other, as far as they fit: what does not is named. A database before photos has none. */
export async function unsentPictures(database: IDBDatabase, missing: Missing[]): Promise<readonly UnsentPicture[]> {
  if (!database.objectStoreNames.contains("pictures")) return [];
  const found: UnsentPicture[] = [];
  let left = MOST_BYTES;
  for (const { hash, thumbnail } of await unsentRows(database, missing)) {
    const bytes = await bytesOf(database, String(hash), missing);
    left -= bytes?.length ?? 0;
    if (bytes !== null && left >= 0) found.push({ hash: String(hash), bytes: textFromBytes(bytes), thumbnail: textOrNull(thumbnail) });
    else if (bytes !== null) missing.push({ part: `picture ${String(hash)}`, why: "It does not fit into one file." });
  }
  return found;
}

async function unsentRows(database: IDBDatabase, missing: Missing[]): Promise<readonly Raw[]> {
  try {
    const photos = database.transaction("photos", "readonly").objectStore("photos");
    return await answered(photos.index("unsent").getAll(1) as IDBRequest<Raw[]>);
  } catch (error) {
    missing.push({ part: "photos", why: whyOf(error) });
    return [];
  }
}

async function bytesOf(database: IDBDatabase, hash: string, missing: Missing[]): Promise<Uint8Array | null> {
  try {
    const pictures = database.transaction("pictures", "readonly").objectStore("pictures");
    const row = await answered(pictures.get(hash) as IDBRequest<Raw | undefined>);
    if (row?.["bytes"] instanceof Uint8Array) return row["bytes"];
    missing.push({ part: `picture ${hash}`, why: "Its bytes are not here." });
  } catch (error) {
    missing.push({ part: `picture ${hash}`, why: whyOf(error) });
  }
  return null;
}

function textOrNull(thumbnail: unknown): string | null {
  return thumbnail instanceof Uint8Array ? textFromBytes(thumbnail) : null;
}

/** Characters handed over at once: more would overrun the stack. */
const STRIDE = 8_192;

/** Base64. */
export function textFromBytes(bytes: Uint8Array): string {
  let binary = "";
  for (let at = 0; at < bytes.length; at += STRIDE) binary += String.fromCharCode(...bytes.subarray(at, at + STRIDE));
  return btoa(binary);
}

/** Null where the text is not base64. */
export function bytesFromText(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  } catch {
    return null;
  }
}
