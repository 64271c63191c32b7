/**
 * Taking a job file in: what is not known here yet goes into the queue as this phone's own changes, each with its id, its
 * maker and its time; its pictures wait to be sent. One transaction: all of it, or nothing.
 */
import type { FileChange, JobFileRead } from "../carrying";
import type { Origin } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type RecordKey } from "./database";
import { keepOwn } from "./photos";
import { enqueueMade, type Made } from "./queue";
import { knownHere, rememberReadIn } from "./read_in";

export interface JobIn {
  readonly changes: number;
  readonly photos: number;
  readonly known: number;
  readonly keys: readonly RecordKey[];
}

export async function jobIn(database: PhoneDatabase, { contents, photos }: JobFileRead): Promise<JobIn> {
  const account = await loadAccount(database);
  const known = new Set([...(await knownHere(database)), ...(await toldBefore(database, contents.history))]);
  const fresh = contents.history.filter(({ change_id }) => !known.has(change_id));
  await enqueueMade(database, fresh.map((change) => broughtOver(change, account)));
  await rememberReadIn(database, fresh);
  let kept = 0;
  for (const [hash, bytes] of photos) kept += (await keepPicture(database, hash, bytes)) ? 1 : 0;
  return { changes: fresh.length, photos: kept, known: contents.history.length - fresh.length, keys: fresh.map(({ kind, record_id }) => [kind, record_id]) };
}

/** Changes of a job that was opened here: the office has told of them. */
async function toldBefore(database: PhoneDatabase, history: readonly FileChange[]): Promise<readonly string[]> {
  const told = await database.pasts.where("change_id").anyOf(history.map(({ change_id }) => change_id)).toArray();
  return told.map(({ change_id }) => change_id);
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
