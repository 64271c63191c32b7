/** A job file, looked into: its contents in today's shape and its pictures, or the reason why it is not taken. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { SCHEMA, type Bytes } from "../wire";
import { checkDepth } from "./depth";
import { JobFileError } from "./faults";
import { checkHistory } from "./history";
import { contentsFrom } from "./parse";
import { checkChanges } from "./rules";
import { JOB, MOST_JOB, MOST_PHOTO, partName, PHOTO_NAME, VERSION, type FileChange, type FilePhoto, type JobContents, type MediaType } from "./shapes";
import { ZipParts } from "./zip";

export interface JobFileRead {
  readonly contents: JobContents;
  /** By hash. */
  readonly photos: ReadonlyMap<string, Bytes>;
  /** Names in the file that this version does not know: they are left out. */
  readonly unknown: readonly string[];
}

const HALF_CHARACTER = /\p{Surrogate}/u;
const MARKS: Readonly<Record<MediaType, RegExp>> = {
  "image/jpeg": /^ffd8ff/,
  "image/png": /^89504e470d0a1a0a/,
  "image/webp": /^52494646.{8}57454250/,
};
const MARK_SIZE = 12;

/** Throws JobFileError, and nothing else for whatever is in the file. */
export async function readJobFile(file: Blob): Promise<JobFileRead> {
  const parts = await ZipParts.open(file);
  const { contents, unknown } = contentsOf(await parts.read(JOB, MOST_JOB));
  checkHistory(contents);
  checkChanges(contents.history);
  return { contents, unknown, photos: await photosOf(contents, parts) };
}

function contentsOf(bytes: Uint8Array): { readonly contents: JobContents; readonly unknown: readonly string[] } {
  checkDepth(bytes);
  const document = parsed(bytes);
  const version = document["evenbed_job"];
  if (typeof version !== "number" || !Number.isInteger(version)) throw new JobFileError("not_a_job_file", JOB);
  if (version > VERSION || newestSchema(document) > SCHEMA) throw new JobFileError("newer_version", JOB);
  return contentsFrom(document);
}

function parsed(bytes: Uint8Array): Readonly<Record<string, unknown>> {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    throw new JobFileError("not_json", JOB);
  }
  if (!canBeSentOn(value)) throw new JobFileError("not_json", JOB);
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new JobFileError("not_a_job_file", JOB);
  return value as Readonly<Record<string, unknown>>;
}

/** Half characters and numbers beyond all limits are no JSON that every phone could read. */
function canBeSentOn(value: unknown): boolean {
  if (typeof value === "string") return !HALF_CHARACTER.test(value);
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  return Array.isArray(value) ? value.every(canBeSentOn) : Object.entries(value).every(([name, part]) => canBeSentOn(name) && canBeSentOn(part));
}

function newestSchema({ schema, history }: Readonly<Record<string, unknown>>): number {
  const changes: readonly unknown[] = Array.isArray(history) ? history : [];
  const told = [schema, ...changes.map((change) => (change as { schema?: unknown } | null)?.schema)];
  return told.reduce<number>((newest, one) => (typeof one === "number" && one > newest ? one : newest), 1);
}

async function photosOf({ photos, complete, history }: JobContents, parts: ZipParts): Promise<ReadonlyMap<string, Bytes>> {
  checkTold(photos, history);
  const told = new Map(photos.map((photo) => [partName(photo), photo]));
  const unnamed = [...parts.names].sort().find((name) => PHOTO_NAME.test(name) && !told.has(name));
  if (unnamed !== undefined) throw new JobFileError("photo_unnamed", unnamed);
  const missing = new Set(complete.photos);
  const found = new Map<string, Bytes>();
  for (const [name, photo] of told) {
    if (parts.names.has(name)) found.set(photo.hash, checked(await parts.read(name, MOST_PHOTO), photo));
    else if (!missing.has(photo.hash)) throw new JobFileError("photo_missing", photo.hash);
  }
  return found;
}

/** Each photo is told of once, and a record names it. */
function checkTold(photos: readonly FilePhoto[], history: readonly FileChange[]): void {
  const named = new Set(history.filter(({ kind }) => kind === "photo").map(({ fields }) => fields["hash"]));
  const hashes = new Set<string>();
  for (const { hash } of photos) {
    if (hashes.has(hash)) throw new JobFileError("double_name", hash);
    if (!named.has(hash)) throw new JobFileError("photo_unnamed", hash);
    hashes.add(hash);
  }
}

function checked(bytes: Bytes, { hash, size, media_type }: FilePhoto): Bytes {
  const isIt = bytes.length === size && bytesToHex(sha256(bytes)) === hash && MARKS[media_type].test(bytesToHex(bytes.subarray(0, MARK_SIZE)));
  if (!isIt) throw new JobFileError("photo_differs", hash);
  return bytes;
}
