/** What an exchange with the service does to the phone's database: each function is one transaction's work. */
import { uuidv7 } from "uuidv7";
import type { AnyFields, Edit, Kind, PushReply, Role } from "../wire";
import { loadAccount, type PhoneDatabase, type RecordKey, type StoredRecord } from "./database";
import { differingFields, fieldsOnTop, keyText } from "./overlay";
import { offerPicturesAgain } from "./photos";
import { enqueueMade, madeNow, renumber, settleOne } from "./queue";

/** Results of a push: taken changes wait for their pull, refused ones are kept aside. */
export async function settlePush(database: PhoneDatabase, reply: PushReply): Promise<readonly RecordKey[]> {
  const at = new Date().toISOString();
  const keys = [];
  for (const result of reply.results) keys.push(await settleOne(database, result, { latest: reply.latest, at }));
  return keys.filter((key) => key !== undefined);
}

/**
 * The service's database is another one (restored from a backup, or a new service): everything is pulled again, and
 * what this phone knew is held aside until `offerHeld`. The first identity is only noted.
 */
export async function adoptDatabase(database: PhoneDatabase, identity: string): Promise<void> {
  const account = await loadAccount(database);
  if (account.database === identity) return;
  if (account.database !== null) {
    await holdEverything(database);
    await forgetSeen(database);
    await offerPicturesAgain(database);
  }
  await database.meta.put({ ...account, database: identity, cursor: 0, seen: 0, view: 0, sweeping: false });
}

async function holdEverything(database: PhoneDatabase): Promise<void> {
  const acked = await database.changes.where("acked").above(0).toArray();
  await database.held.bulkPut(await database.records.toArray());
  for (const key of new Set(acked.map((change) => keyText(change.kind, change.record_id)))) {
    const own = acked.filter((change) => keyText(change.kind, change.record_id) === key);
    await holdOnTop(database, own);
  }
  await database.changes.bulkDelete(acked.map((change) => change.change_id));
  await database.records.clear();
  await database.histories.clear();
}

/** What a waiting change had seen was counted in the old database's numbers: in the new one it has seen nothing. */
async function forgetSeen(database: PhoneDatabase): Promise<void> {
  const waiting = await database.changes.toArray();
  await database.changes.bulkPut(waiting.map((change) => ({ ...change, seen: 0 })));
}

async function holdOnTop(database: PhoneDatabase, changes: Parameters<typeof fieldsOnTop>[1]): Promise<void> {
  const first = changes[0];
  if (first === undefined) return;
  const { kind, record_id: id } = first;
  const under = await database.held.get([kind, id]);
  await database.held.put({ kind, id, fields: fieldsOnTop(under?.fields ?? {}, changes), sequence: under?.sequence ?? 0 });
}

/** Parents before children, so that the service can place each. */
const OFFER_ORDER: readonly Kind[] = ["job", "room", "reading", "placement", "climate", "photo"];

/**
 * After the new database was pulled to its end: offers every field it lacks or holds differently, once. A viewer has
 * nothing to offer.
 */
export async function offerHeld(database: PhoneDatabase): Promise<readonly RecordKey[]> {
  const held = (await database.held.toArray()).sort(
    (a, b) => OFFER_ORDER.indexOf(a.kind) - OFFER_ORDER.indexOf(b.kind) || (a.id < b.id ? -1 : 1),
  );
  const { role } = await loadAccount(database);
  const offers = await Promise.all(held.map((record) => offerFrom(database, record, role)));
  await enqueueBefore(database, offers.filter((offer) => offer !== null));
  await database.held.clear();
  return held.map(({ kind, id }) => [kind, id]);
}

async function offerFrom(database: PhoneDatabase, held: StoredRecord, role: Role | null): Promise<Edit | null> {
  if (role === "viewer") return null;
  const theirs = await database.records.get([held.kind, held.id]);
  const fields = differingFields(offered(held.fields, role), theirs?.fields);
  return fields === null ? null : { kind: held.kind, id: held.id, fields };
}

/** The crew is a foreman's to offer: with it, the office would refuse the whole job from anybody else. */
function offered(fields: AnyFields, role: Role | null): AnyFields {
  if (role === "foreman") return fields;
  const { crew: _crew, ...rest } = fields;
  return rest;
}

/** What is held is older than what waits: it goes first, or a waiting reading would arrive before its room. */
async function enqueueBefore(database: PhoneDatabase, offers: readonly Edit[]): Promise<void> {
  if (offers.length === 0) return;
  const account = await loadAccount(database);
  const waiting = await database.changes.where("acked").equals(0).sortBy("number");
  const first = waiting[0]?.number ?? account.nextNumber;
  await database.changes.bulkDelete(waiting.map((change) => change.change_id));
  await database.meta.put({ ...account, nextNumber: first });
  await enqueueMade(database, offers.map((offer) => madeNow(offer, 0)));
  const moved = waiting.map((change) => ({ ...change, number: change.number + offers.length }));
  await database.changes.bulkAdd(moved);
  const after = await loadAccount(database);
  await database.meta.put({ ...after, nextNumber: after.nextNumber + waiting.length });
}

/** Who this phone is to the service. */
export interface Who {
  readonly deviceId: string;
  readonly personId: string;
  readonly person: string;
  readonly role: Role;
}

/**
 * The service says whose phone this is. Views are counted for each person: where it is another one, what is here counts
 * as come with none, and the next pull brings a snapshot.
 */
export async function noteWho(database: PhoneDatabase, who: Who): Promise<void> {
  const account = await loadAccount(database);
  const isSame = account.personId === who.personId;
  if (!isSame) await database.records.toCollection().modify({ view: 0 });
  await database.meta.put({ ...account, ...who, view: isSame ? account.view : 0 });
}

/** Another phone has used this one's numbers: it takes a new identity and offers its changes again, from 1. */
export async function takeNewIdentity(database: PhoneDatabase): Promise<void> {
  const account = await loadAccount(database);
  await renumber(database, 1, { ...account, deviceId: uuidv7(), joined: false, mustJoinAgain: true });
}

/** The service awaits `expected` and this phone no longer holds it: what waits goes on from there. */
export async function continueFrom(database: PhoneDatabase, expected: number): Promise<void> {
  await renumber(database, expected, await loadAccount(database));
}
