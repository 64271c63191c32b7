/** The office's database was restored or replaced: what this phone knew is held aside, and offered to the new one. */
import { withoutLetGo, type AnyFields, type Kind, type Role } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type QueuedChange, type RecordKey, type StoredRecord } from "./database";
import { offersOf, timesOnTop } from "./offers";
import { fieldsOnTop, keyText } from "./overlay";
import { offerPicturesAgain } from "./photos";
import { forgetPasts } from "./pasts";
import { enqueueMade, madeNow, type Made } from "./queue";

/**
 * The service's database is another one (restored from a backup, or a new service): everything is pulled again, and
 * what this phone knew is held aside until `offerHeld`. What is still held from the database before is offered first:
 * the queue keeps it. The first identity is only noted.
 */
export async function adoptDatabase(database: PhoneDatabase, identity: string): Promise<void> {
  const account = await loadAccount(database);
  if (account.database === identity) return;
  if (account.database !== null) {
    await offerHeld(database);
    await holdEverything(database, account.clockOffsetMs ?? 0);
    await forgetSeen(database);
    await offerPicturesAgain(database);
  }
  await database.meta.put({ ...(await loadAccount(database)), database: identity, cursor: 0, view: 0, sweeping: false });
}

async function holdEverything(database: PhoneDatabase, offsetMs: number): Promise<void> {
  const acked = await database.changes.where("acked").above(0).toArray();
  await database.held.bulkPut(await database.records.toArray());
  for (const key of new Set(acked.map((change) => keyText(change.kind, change.record_id)))) {
    const own = acked.filter((change) => keyText(change.kind, change.record_id) === key);
    await holdOnTop(database, own, offsetMs);
  }
  await database.changes.bulkDelete(acked.map((change) => change.change_id));
  await database.records.clear();
  await database.histories.clear();
  await forgetPasts(database, await database.opened.toCollection().primaryKeys());
}

/** What a waiting change had seen was counted in the old database's numbers: in the new one it has seen nothing. */
async function forgetSeen(database: PhoneDatabase): Promise<void> {
  const waiting = await database.changes.toArray();
  await database.changes.bulkPut(waiting.map((change) => ({ ...change, seen: 0 })));
}

async function holdOnTop(database: PhoneDatabase, changes: readonly QueuedChange[], offsetMs: number): Promise<void> {
  const first = changes[0];
  if (first === undefined) return;
  const { kind, record_id: id } = first;
  const under = await database.held.get([kind, id]);
  const made = Math.max(...changes.map((change) => madeAt(change, offsetMs)));
  const changed_at = new Date(Math.max(made, Date.parse(under?.changed_at ?? "") || made)).toISOString();
  const fields = fieldsOnTop(under?.fields ?? {}, changes, under?.changed_at);
  const moments = changes.map((change) => ({ fields: change.fields, at: madeAt(change, offsetMs) }));
  const times = timesOnTop(under, fields, moments);
  await database.held.put({ kind, id, fields, sequence: under?.sequence ?? 0, changed_at, ...(times === null ? {} : { times }) });
}

function madeAt({ device_time }: QueuedChange, offsetMs: number): number {
  return Date.parse(device_time) + offsetMs;
}

/** Parents before children, so that the service can place each. */
const OFFER_ORDER: readonly Kind[] = [
  "job", "room", "reading", "placement", "batch", "station", "rail_check", "entry", "climate", "photo", "alternative",
  "gap", "height_line", "temperature_log", "forecast_day", "sign_off", "supplies", "prices",
];

const FOREMANS: readonly Kind[] = ["supplies", "prices"];

/**
 * After the new database was pulled to its end: offers every field it lacks, holds differently or holds from before,
 * once. A viewer has nothing to offer.
 */
export async function offerHeld(database: PhoneDatabase): Promise<readonly RecordKey[]> {
  const held = (await database.held.toArray()).sort(
    (a, b) => OFFER_ORDER.indexOf(a.kind) - OFFER_ORDER.indexOf(b.kind) || (a.id < b.id ? -1 : 1),
  );
  const account = await loadAccount(database);
  const offers = await Promise.all(held.map((record) => offersFrom(database, record, account)));
  await enqueueBefore(database, offers.flat());
  await database.held.clear();
  return held.map(({ kind, id }) => [kind, id]);
}

async function offersFrom(database: PhoneDatabase, held: StoredRecord, account: Account): Promise<readonly Made[]> {
  const { role } = account;
  if (role === "viewer") return [];
  const { kind, id } = held;
  const theirs = await database.records.get([kind, id]);
  const offers = offersOf(held, withoutLetGo(kind, offered(held, role)), theirs);
  return offers.map(({ fields, at }) => ({ ...madeNow({ kind, id, fields }, 0), device_time: madeWhen(at, account) }));
}

/**
 * By this phone's clock: when the fields were set, as far as is known here. An offer made now would win against newer
 * values that this phone had never seen. What an earlier version stored does not say: it stood at the last exchange.
 */
function madeWhen(at: number | null, { clockOffsetMs, lastSentAt }: Account): string {
  if (at === null) return lastSentAt ?? new Date().toISOString();
  return new Date(at - (clockOffsetMs ?? 0)).toISOString();
}

/**
 * What is the company's, and the crew of a job, is a foreman's to offer: with the crew, the office would refuse the whole
 * job from anybody else.
 */
function offered({ kind, fields }: StoredRecord, role: Role | null): AnyFields {
  if (role === "foreman") return fields;
  if (FOREMANS.includes(kind)) return {};
  const { crew: _crew, ...rest } = fields;
  return rest;
}

/** What is held is older than what waits: it goes first, or a waiting reading would arrive before its room. */
async function enqueueBefore(database: PhoneDatabase, offers: readonly Made[]): Promise<void> {
  if (offers.length === 0) return;
  const account = await loadAccount(database);
  const waiting = await database.changes.where("acked").equals(0).sortBy("number");
  const first = waiting[0]?.number ?? account.nextNumber;
  await database.changes.bulkDelete(waiting.map((change) => change.change_id));
  await database.meta.put({ ...account, nextNumber: first });
  await enqueueMade(database, offers);
  const moved = waiting.map((change) => ({ ...change, number: change.number + offers.length }));
  await database.changes.bulkAdd(moved);
  const after = await loadAccount(database);
  await database.meta.put({ ...after, nextNumber: after.nextNumber + waiting.length });
}
