/** The queue of the phone's own changes. Each function runs inside the caller's transaction and awaits only its requests. */
import { uuidv7 } from "uuidv7";
import { SCHEMA, type AnyFields, type Edit, type Kind, type PushResult } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type QueuedChange, type RecordKey } from "./database";

/** Changes that wait, lowest number first. */
export async function waitingChanges(database: PhoneDatabase): Promise<readonly QueuedChange[]> {
  return database.changes.where("acked").equals(0).sortBy("number");
}

/** Gives the edits the next numbers and puts them in the queue. */
export async function enqueue(database: PhoneDatabase, edits: readonly Edit[], seen?: number): Promise<void> {
  const account = await loadAccount(database);
  const time = new Date().toISOString();
  const changes = edits.map((edit, index) => changeFrom(edit, account, index, { time, seen }));
  await database.changes.bulkAdd(changes);
  await database.meta.put({ ...account, nextNumber: account.nextNumber + edits.length });
}

function changeFrom(
  edit: { readonly kind: Kind; readonly id: string; readonly fields: AnyFields },
  account: Account,
  index: number,
  made: { readonly time: string; readonly seen: number | undefined },
): QueuedChange {
  return {
    change_id: uuidv7(),
    number: account.nextNumber + index,
    kind: edit.kind,
    record_id: edit.id,
    fields: edit.fields,
    seen: made.seen ?? account.cursor,
    device_time: made.time,
    schema: SCHEMA,
    acked: 0,
  };
}

/** Numbers the waiting changes anew from `first`; their ids, by which the service knows them, stay. */
export async function renumber(database: PhoneDatabase, first: number, account: Account): Promise<void> {
  const waiting = await waitingChanges(database);
  await database.changes.bulkPut(waiting.map((change, index) => ({ ...change, number: first + index })));
  await database.meta.put({ ...account, nextNumber: first + waiting.length });
}

/** Takes one result of a push. Returns the record it concerns; undefined where the change was settled before. */
export async function settleOne(
  database: PhoneDatabase,
  result: PushResult,
  reply: { readonly latest: number; readonly at: string; readonly cursor: number },
): Promise<RecordKey | undefined> {
  const change = await database.changes.get(result.change_id);
  if (change === undefined) return undefined;
  if (result.outcome === "refused") await keepRefused(database, change, result, reply.at);
  else await acknowledge(database, change, result.sequence ?? reply.latest, reply.cursor);
  return [change.kind, change.record_id];
}

/** The change stays on top of what is shown until a pull has brought the record with its number. */
async function acknowledge(
  database: PhoneDatabase,
  change: QueuedChange,
  sequence: number,
  cursor: number,
): Promise<void> {
  if (sequence <= cursor) await database.changes.delete(change.change_id);
  else await database.changes.put({ ...change, acked: sequence });
}

/** A refused change leaves the queue, so that the rest moves, and is kept with its value for the person. */
export async function keepRefused(
  database: PhoneDatabase,
  change: QueuedChange,
  why: { readonly reason?: string | null; readonly message?: string | null },
  at: string,
): Promise<void> {
  await database.refused.put({
    change_id: change.change_id,
    kind: change.kind,
    record_id: change.record_id,
    fields: change.fields,
    reason: why.reason ?? "refused",
    message: why.message ?? "",
    at,
  });
  await database.changes.delete(change.change_id);
}
