/**
 * One text for one document, so that a hash of it means something: JSON as RFC 8785 (JSON Canonicalization Scheme) writes it.
 * Keys stand in the order of their UTF-16 code units, numbers as ECMAScript writes them, nothing between the signs.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** Of anything that JSON holds. A key without a value is left out, as JSON leaves it out. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((part) => canonicalText(part ?? null)).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value ?? null);
  const told = Object.entries(value).filter(([, part]) => part !== undefined);
  const sorted = told.sort(([one], [other]) => (one < other ? -1 : 1));
  return `{${sorted.map(([key, part]) => `${JSON.stringify(key)}:${canonicalText(part)}`).join(",")}}`;
}

/** SHA-256 of the canonical text in UTF-8, in hexadecimal. */
export function hashOf(value: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalText(value))));
}
