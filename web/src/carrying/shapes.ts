/** What stands in `job.json`, version 1. The format is documented in DEVELOPERS.md. */
import type { AnyFields, Kind } from "../wire";

export const VERSION = 1;
export const JOB = "job.json";
export const ABOUT = "README.txt";
export const MOST_RECORDS = 200_000;
export const MOST_CHANGES = 500_000;
export const MOST_PHOTOS = 2_000;
export const MOST_JOB = 64_000_000;
export const MOST_PHOTO = 4_000_000;
/** Of the file, and of all that comes out of it, bytes. */
export const MOST_BYTES = 400_000_000;
export const MOST_KNEW = 1_000;

export type MediaType = "image/jpeg" | "image/png" | "image/webp";
export const EXTENSIONS: Readonly<Record<MediaType, string>> = { "image/jpeg": "jpg", "image/png": "png", "image/webp": "webp" };
export const PHOTO_NAME = /^photos\/([0-9a-f]{64})\.(jpg|png|webp)$/;

/** For a kind of record: the kind of its parent, and the field that names it. */
export const PARENTS: Readonly<Record<Exclude<Kind, "job" | "prices" | "supplies">, readonly ["job" | "room", "job_id" | "room_id"]>> = {
  room: ["job", "job_id"],
  reading: ["room", "room_id"],
  placement: ["room", "room_id"],
  batch: ["room", "room_id"],
  station: ["room", "room_id"],
  rail_check: ["room", "room_id"],
  entry: ["room", "room_id"],
  climate: ["room", "room_id"],
  photo: ["room", "room_id"],
  alternative: ["room", "room_id"],
  gap: ["room", "room_id"],
  height_line: ["room", "room_id"],
  temperature_log: ["room", "room_id"],
  forecast_day: ["job", "job_id"],
  sign_off: ["room", "room_id"],
};

export type JobKind = "job" | keyof typeof PARENTS;

export interface FileRecord {
  readonly kind: JobKind;
  readonly id: string;
  readonly fields: AnyFields;
}

/** One change; they stand in the order in which they took effect. */
export interface FileChange {
  readonly change_id: string;
  readonly kind: JobKind;
  readonly record_id: string;
  readonly fields: AnyFields;
  readonly schema: number;
  /** ISO 8601, the maker's clock corrected. */
  readonly at: string;
  readonly person: string | null;
  readonly device: { readonly id: string; readonly name: string | null } | null;
  /** What its maker had seen of the record: of each device that had edited it, the last change known. */
  readonly knew: readonly string[];
}

export interface FilePhoto {
  readonly hash: string;
  readonly media_type: MediaType;
  readonly size: number;
}

export interface JobContents {
  readonly evenbed_job: number;
  readonly made_at: string;
  readonly made_by: { readonly person: string | null; readonly device: string | null; readonly app: string };
  readonly schema: number;
  readonly job: string;
  readonly records: readonly FileRecord[];
  readonly history: readonly FileChange[];
  readonly photos: readonly FilePhoto[];
  /** `photos`: the hashes of those that are not in the file. */
  readonly complete: { readonly history: boolean; readonly photos: readonly string[] };
}

export function partName({ hash, media_type }: Pick<FilePhoto, "hash" | "media_type">): string {
  return `photos/${hash}.${EXTENSIONS[media_type]}`;
}
