/** Photos between the phone's rooms, and how far one has come on its way to the office. */
import type { components } from "./generated/service";

/** Bytes of a photo in one part. */
export const MOST_PART_BYTES = 262_144;

export type PhotoReply = components["schemas"]["PhotoReply"];
export type Bytes = Uint8Array<ArrayBuffer>;

/** A picture made on this phone, ready to be kept and sent: small, upright, with nothing beside its pixels. */
export interface OwnPhoto {
  /** SHA-256 of `bytes`, hex. */
  readonly hash: string;
  readonly media_type: "image/jpeg";
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly bytes: Bytes;
  readonly thumbnail: Bytes;
}

/** A picture that the office has not got whole yet; `problem` is the code with which it was not taken. */
export interface UnsentPhoto {
  readonly hash: string;
  readonly problem: string | null;
}
