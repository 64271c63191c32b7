/**
 * Taking a job file in: what is not known here yet goes into the queue as this phone's own changes, each with its id, its
 * maker and its time; its pictures wait to be sent. One transaction: all of it, or nothing.
 */
import { checkChanges, checkSame, JobFileError, keyOf, type FileChange, type JobFileRead } from "../carrying";
import type { AnyFields, Kind, Origin } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type RecordKey } from "./database";
import { rowsFrom } from "./overlay";
import { keepOwn } from "./photos";
import { enqueueMade, type Made } from "./queue";
import { knownHere, rememberReadIn } from "./read_in";

export interface JobIn {
  readonly changes: number;
  readonly photos: number;
  readonly known: number;
  readonly keys: readonly RecordKey[];
}

/** The changes of a file that are new here; why it is not taken, where it does not go with what is here. */
export async function freshIn(database: PhoneDatabase, { contents: { history } }: JobFileRead): Promise<readonly FileChange[] | JobFileError> {
  const told = await toldBefore(database, history);
  const known = await knownHere(database);
  const fresh = history.filter(({ change_id }) => !known.has(change_id) && !told.has(change_id));
  try {
    for (const change of history) checkSame(change, told.get(change.change_id) ?? change);
    checkChanges(fresh, await standingOf(database, fresh));
  } catch (error) {
    if (error instanceof JobFileError) return error;
    throw error;
  }
  return fresh;
}

export async function jobIn(database: PhoneDatabase, { contents, photos }: JobFileRead, fresh: readonly FileChange[]): Promise<JobIn> {
  const account = await loadAccount(database);
  await enqueueMade(database, fresh.map((change) => broughtOver(change, account)));
  await rememberReadIn(database, fresh);
  let kept = 0;
  for (const [hash, bytes] of photos) kept += (await keepPicture(database, hash, bytes)) ? 1 : 0;
  return { changes: fresh.length, photos: kept, known: contents.history.length - fresh.length, keys: fresh.map(({ kind, record_id }) => [kind, record_id]) };
}

type Known = Pick<FileChange, "record_id" | "fields"> & { readonly kind: Kind };

/** Changes whose contents are known here: they wait to be sent, or the office has told of them, for the job was opened. */
async function toldBefore(database: PhoneDatabase, history: readonly FileChange[]): Promise<ReadonlyMap<string, Known>> {
  const ids = history.map(({ change_id }) => change_id);
  const told = await database.pasts.where("change_id").anyOf(ids).toArray();
  const queued = (await database.changes.bulkGet(ids)).filter((change) => change !== undefined);
  return new Map([...told, ...queued].map((one) => [one.change_id, one]));
}

/** What is here of the records that the changes are about. */
async function standingOf(database: PhoneDatabase, changes: readonly FileChange[]): Promise<ReadonlyMap<string, AnyFields>> {
  const keys = [...new Map(changes.map(({ kind, record_id }) => [keyOf(kind, record_id), [kind, record_id] as [Kind, string]])).values()];
  const [records, held] = [await database.records.bulkGet(keys), await database.held.bulkGet(keys)];
  const waiting = await database.changes.where("[kind+record_id]").anyOf(keys).toArray();
  const isThere = <T>(one: T | undefined): one is T => one !== undefined;
  return new Map(rowsFrom(records.filter(isThere), held.filter(isThere), waiting).map(({ kind, id, fields }) => [keyOf(kind, id), fields]));
}

function broughtOver(change: FileChange, { clockOffsetMs }: Account): Made {
  const { change_id, kind, record_id, fields, schema, at, person, device, knew } = change;
  const origin: Origin = { at, person, device_id: device?.id ?? null, device_name: device?.name ?? null, knew };
  const device_time = new Date(Date.parse(at) - (clockOffsetMs ?? 0)).toISOString();
  return { change_id, kind, record_id, fields, schema, seen: 0, device_time, origin };
}

async function keepPicture(database: PhoneDatabase, hash: string, bytes: Uint8Array<ArrayBuffer>): Promise<boolean> {
  if ((await database.pictures.where({ hash }).count()) > 0) return false;
  const known = await database.photos.get(hash);
  await keepOwn(database, { hash, bytes, thumbnail: known?.thumbnail ?? null });
  return true;
}
