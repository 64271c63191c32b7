/** A job file, looked into: its contents in today's shape and its pictures, or the reason why it is not taken. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { SCHEMA, type Bytes } from "../wire";
import { checkDepth } from "./depth";
import { JobFileError } from "./faults";
import { checkHistory } from "./history";
import { contentsFrom } from "./parse";
import { JOB, MOST_JOB, MOST_PHOTO, partName, PHOTO_NAME, VERSION, type JobContents } from "./shapes";
import { ZipParts } from "./zip";

export interface JobFileRead {
  readonly contents: JobContents;
  /** By hash. */
  readonly photos: ReadonlyMap<string, Bytes>;
  /** Names in the file that this version does not know: they are left out. */
  readonly unknown: readonly string[];
}

/** Throws JobFileError, and nothing else for whatever is in the file. */
export async function readJobFile(file: Blob): Promise<JobFileRead> {
  const parts = await ZipParts.open(file);
  const { contents, unknown } = contentsOf(await parts.read(JOB, MOST_JOB));
  checkHistory(contents);
  return { contents, unknown, photos: await photosOf(contents, parts) };
}

function contentsOf(bytes: Uint8Array): { readonly contents: JobContents; readonly unknown: readonly string[] } {
  checkDepth(bytes);
  const document = parsed(bytes);
  const version = document["evenbed_job"];
  if (typeof version !== "number" || !Number.isInteger(version)) throw new JobFileError("not_a_job_file");
  if (version > VERSION || newestSchema(document) > SCHEMA) throw new JobFileError("newer_version");
  return contentsFrom(document);
}

function parsed(bytes: Uint8Array): Readonly<Record<string, unknown>> {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    throw new JobFileError("not_json");
  }
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new JobFileError("not_a_job_file");
  return value as Readonly<Record<string, unknown>>;
}

function newestSchema({ schema, history }: Readonly<Record<string, unknown>>): number {
  const changes: readonly unknown[] = Array.isArray(history) ? history : [];
  const told = [schema, ...changes.map((change) => (change as { schema?: unknown } | null)?.schema)];
  return told.reduce<number>((newest, one) => (typeof one === "number" && one > newest ? one : newest), 1);
}

async function photosOf({ photos, complete }: JobContents, parts: ZipParts): Promise<ReadonlyMap<string, Bytes>> {
  const told = new Map(photos.map((photo) => [partName(photo), photo]));
  const unnamed = [...parts.names].sort().find((name) => PHOTO_NAME.test(name) && !told.has(name));
  if (unnamed !== undefined) throw new JobFileError("photo_unnamed", unnamed);
  const found = new Map<string, Bytes>();
  for (const [name, { hash, size }] of told) {
    if (parts.names.has(name)) found.set(hash, checked(await parts.read(name, MOST_PHOTO), hash, size));
    else if (!complete.photos.includes(hash)) throw new JobFileError("photo_missing", hash);
  }
  return found;
}

function checked(bytes: Bytes, hash: string, size: number): Bytes {
  if (bytes.length !== size || bytesToHex(sha256(bytes)) !== hash) throw new JobFileError("photo_differs", hash);
  return bytes;
}
