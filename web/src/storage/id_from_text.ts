/** An id that is always the same for the same text. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** In the form of a UUID; version 8 (RFC 9562, 5.8) says that the rest is of our own making. */
export function idFromText(text: string): string {
  const hex = bytesToHex(sha256(utf8ToBytes(text)));
  return [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`, `8${hex.slice(17, 20)}`, hex.slice(20, 32)].join("-");
}
