/**
 * Reading a file of unsent changes into the queue of a phone. A change keeps its id, by which the office takes it once
 * however many phones bring it; it gets this phone's next number.
 */
import { KINDS, SCHEMA, type Change, type Refused } from "../wire";
import { loadAccount, loadReadIn, type Account, type PhoneDatabase, type RecordKey } from "./database";
import { keepOwn } from "./photos";
import { enqueueMade, type Made } from "./queue";
import { UNSENT_VERSION, type UnsentContents } from "./unsent";
import { bytesFromText, type UnsentPicture } from "./unsent_photos";

export type ReadOutcome =
  | { readonly outcome: "read"; readonly count: number }
  | { readonly outcome: "not_a_file_of_ours" | "damaged" | "too_large" | "newer_version" };

/** Characters. Some thousand times what a season without a network leaves. */
export const MOST_TEXT = 200_000_000;

/** The contents, checked; or why they cannot be read in. */
export function contentsFromText(text: string): UnsentContents | Exclude<ReadOutcome, { outcome: "read" }> {
  if (text.length > MOST_TEXT) return { outcome: "too_large" };
  const found = parsed(text);
  if (found === null) return { outcome: looksCut(text) ? "damaged" : "not_a_file_of_ours" };
  const version = found["evenbed_unsent"];
  if (typeof version !== "number") return { outcome: "not_a_file_of_ours" };
  if (version > UNSENT_VERSION || isNewer(found)) return { outcome: "newer_version" };
  return isWhole(found) ? found : { outcome: "damaged" };
}

type Open = Readonly<Record<string, unknown>>;

function parsed(text: string): Open | null {
  try {
    const value: unknown = JSON.parse(text);
    return isObject(value) ? value : null;
  } catch {
    return null;
  }
}

/** It begins like one of ours and does not end: a copy that broke off. */
function looksCut(text: string): boolean {
  return /^\s*\{\s*"evenbed_unsent"/.test(text);
}

function isObject(value: unknown): value is Open {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isNewer({ changes }: Open): boolean {
  return Array.isArray(changes) && changes.some((change: unknown) => isObject(change) && Number(change["schema"]) > SCHEMA);
}

function isWhole(found: Open): found is Open & UnsentContents {
  const { changes, refused, drafts, photos } = found;
  return (
    isListOf(changes, isChange) &&
    isListOf(refused, isRefused) &&
    isListOf(drafts, isDraft) &&
    isListOf(photos, isPicture) &&
    [found["database"], found["device_id"]].every(isTextOrNull) &&
    (found["clock_offset_ms"] === null || Number.isFinite(found["clock_offset_ms"]))
  );
}

function isListOf(value: unknown, is: (item: Open) => boolean): boolean {
  return Array.isArray(value) && value.every((item: unknown) => isObject(item) && is(item));
}

function isTextOrNull(value: unknown): boolean {
  return value === null || typeof value === "string";
}

function isChange(change: Open): boolean {
  const texts = [change["change_id"], change["record_id"], change["device_time"]];
  const counts = [change["number"], change["seen"], change["schema"]];
  return (
    texts.every((text) => typeof text === "string") &&
    counts.every((count) => Number.isSafeInteger(count) && Number(count) >= 0) &&
    !Number.isNaN(Date.parse(String(change["device_time"]))) &&
    isKind(change["kind"]) &&
    isObject(change["fields"])
  );
}

function isRefused(refused: Open): boolean {
  const texts = ["change_id", "record_id", "reason", "message", "at"].map((name) => refused[name]);
  return texts.every((text) => typeof text === "string") && isKind(refused["kind"]) && isObject(refused["fields"]);
}

function isKind(value: unknown): boolean {
  return KINDS.some((kind) => kind === value);
}

function isDraft(draft: Open): boolean {
  return typeof draft["key"] === "string" && typeof draft["text"] === "string";
}

function isPicture({ hash, bytes, thumbnail }: Open): boolean {
  const isBase64 = (text: unknown) => typeof text === "string" && bytesFromText(text) !== null;
  return /^[0-9a-f]{64}$/.test(String(hash)) && isBase64(bytes) && (thumbnail === null || isBase64(thumbnail));
}

/** What reading in has done: how many changes are new here, and the records they show. */
export interface TakenIn {
  readonly count: number;
  readonly keys: readonly RecordKey[];
}

/** Enqueues what this phone does not know yet, in the file's order. What is here already stays as it is. */
export async function takeIn(database: PhoneDatabase, contents: UnsentContents): Promise<TakenIn> {
  const account = await loadAccount(database);
  const known = await knownHere(database);
  const fresh = inOrder(contents.changes).filter((change) => !known.has(change.change_id));
  await enqueueMade(database, fresh.map((change) => broughtOver(change, contents, account)));
  await rememberReadIn(database, fresh);
  await keepBesides(database, contents);
  for (const picture of contents.photos) await keepPicture(database, picture);
  return { count: fresh.length, keys: fresh.map((change) => [change.kind, change.record_id]) };
}

/** By number, and of one id the first alone: a file put together by hand must not trip the queue. */
function inOrder(changes: readonly Change[]): readonly Change[] {
  const sorted = [...changes].sort((a, b) => a.number - b.number);
  return [...new Map(sorted.reverse().map((change) => [change.change_id, change])).values()].reverse();
}

/** Ids in the queue, refused, or read in before. What was sent long ago comes again: the office knows its id. */
export async function knownHere(database: PhoneDatabase): Promise<ReadonlySet<string>> {
  const [queued, refused, readIn] = await Promise.all([
    database.changes.toCollection().primaryKeys(),
    database.refused.toCollection().primaryKeys(),
    loadReadIn(database),
  ]);
  return new Set([...queued, ...refused, ...readIn]);
}

/**
 * As if this phone had made it: the moment by this phone's own clock, and of another database's numbers it has seen
 * none.
 */
function broughtOver(change: Change, contents: UnsentContents, account: Account): Made {
  const { change_id, kind, record_id, fields, schema, origin } = change;
  const seen = contents.database !== null && contents.database === account.database ? change.seen : 0;
  const made = { change_id, kind, record_id, fields, schema, seen, device_time: momentHere(change, contents, account) };
  return origin === undefined ? made : { ...made, origin };
}

/** Two phones' clocks compare by way of the office's; where one was never measured, both are taken to be right. */
function momentHere(change: Change, contents: UnsentContents, account: Account): string {
  if (contents.clock_offset_ms === null || account.clockOffsetMs === null) return change.device_time;
  const moment = Date.parse(change.device_time) + contents.clock_offset_ms - account.clockOffsetMs;
  return new Date(moment).toISOString();
}

export async function rememberReadIn(database: PhoneDatabase, fresh: readonly Pick<Change, "change_id">[]): Promise<void> {
  const before = await loadReadIn(database);
  await database.meta.put({ key: "read_in", changeIds: [...before, ...fresh.map((change) => change.change_id)] });
}

/** Refused values and half-typed drafts come too, where this phone has none of its own in their place. */
async function keepBesides(database: PhoneDatabase, { refused, drafts }: UnsentContents): Promise<void> {
  const keptRefused = await database.refused.bulkGet(refused.map((one) => one.change_id));
  await database.refused.bulkPut(refused.filter((_, index) => keptRefused[index] === undefined).map(refusedFrom));
  const keptDrafts = await database.drafts.bulkGet(drafts.map((draft) => draft.key));
  const fresh = drafts.filter((_, index) => keptDrafts[index] === undefined);
  await database.drafts.bulkPut(fresh.map(({ key, text }) => ({ key, text })));
}

/** What waits here already, or is here whole, stays as it is: the office gets it, or has it. */
async function keepPicture(database: PhoneDatabase, { hash, ...texts }: UnsentPicture): Promise<void> {
  const bytes = bytesFromText(texts.bytes);
  const known = await database.photos.get(hash);
  const isWhole = (await database.pictures.where({ hash }).count()) > 0;
  if (bytes === null || isWhole || known?.unsent === 1) return;
  const thumbnail = texts.thumbnail === null ? (known?.thumbnail ?? null) : bytesFromText(texts.thumbnail);
  await keepOwn(database, { hash, bytes, thumbnail });
}

function refusedFrom({ change_id, kind, record_id, fields, reason, message, at }: Refused): Refused {
  return { change_id, kind, record_id, fields, reason, message, at };
}
