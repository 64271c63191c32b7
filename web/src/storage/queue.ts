/** The queue of the phone's own changes. Each function runs inside the caller's transaction and awaits only its requests. */
import { uuidv7 } from "uuidv7";
import { SCHEMA, type Change, type Edit, type Kind, type PushResult } from "../wire";
import {
  loadAccount,
  type Account,
  type PhoneDatabase,
  type QueuedChange,
  type RecordKey,
  type StoredRecord,
} from "./database";

/** Changes that wait, lowest number first. */
export async function waitingChanges(database: PhoneDatabase): Promise<readonly QueuedChange[]> {
  return database.changes.where("acked").equals(0).sortBy("number");
}

/** Gives the edits the next numbers and puts them in the queue. */
export async function enqueue(database: PhoneDatabase, edits: readonly Edit[]): Promise<void> {
  const records = await database.records.bulkGet(edits.map(({ kind, id }): [Kind, string] => [kind, id]));
  await enqueueMade(database, edits.map((edit, index) => madeNow(edit, seenOf(records[index]))));
}

/**
 * What the person at this phone knew of the record: everything up to its own newest change. The pull's cursor also
 * counts what this person may not see, and in the middle of a pull what is still to come.
 */
function seenOf(record: StoredRecord | undefined): number {
  return record?.sequence ?? 0;
}

/** A change but for its number, which the queue gives. */
export type Made = Omit<Change, "number">;

/** Puts changes in the queue, in this order, with the next numbers. */
export async function enqueueMade(database: PhoneDatabase, made: readonly Made[]): Promise<void> {
  const account = await loadAccount(database);
  await database.changes.bulkAdd(made.map((one, index) => ({ ...one, number: account.nextNumber + index, acked: 0 })));
  await database.meta.put({ ...account, nextNumber: account.nextNumber + made.length });
}

/** An edit as a change made at this moment. */
export function madeNow({ kind, id, fields }: Edit, seen: number): Made {
  const device_time = new Date().toISOString();
  return { change_id: uuidv7(), kind, record_id: id, fields, seen, device_time, schema: SCHEMA };
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
  reply: { readonly latest: number; readonly at: string },
): Promise<RecordKey | undefined> {
  const change = await database.changes.get(result.change_id);
  if (change === undefined) return undefined;
  if (result.outcome === "refused") await keepRefused(database, change, result, reply.at);
  else await acknowledge(database, change, result.sequence ?? reply.latest);
  return [change.kind, change.record_id];
}

/** The change stays on top of what is shown until a pull has brought the record with its number. */
async function acknowledge(database: PhoneDatabase, change: QueuedChange, sequence: number): Promise<void> {
  const record = await database.records.get([change.kind, change.record_id]);
  if (sequence <= (record?.sequence ?? 0)) await database.changes.delete(change.change_id);
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
