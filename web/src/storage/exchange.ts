/** What an exchange with the service does to the phone's database: each function is one transaction's work. */
import { uuidv7 } from "uuidv7";
import type { PushReply, Role } from "../wire";
import { loadAccount, type PhoneDatabase, type RecordKey } from "./database";
import { renumber, settleOne } from "./queue";

/** Results of a push: taken changes wait for their pull, refused ones are kept aside. */
export async function settlePush(database: PhoneDatabase, reply: PushReply): Promise<readonly RecordKey[]> {
  const at = new Date().toISOString();
  const keys = [];
  for (const result of reply.results) keys.push(await settleOne(database, result, { latest: reply.latest, at }));
  return keys.filter((key) => key !== undefined);
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
  if (!isSame) await comeWithNone(database);
  await database.meta.put({ ...account, ...who, view: isSame ? account.view : 0 });
}

async function comeWithNone({ records }: PhoneDatabase): Promise<void> {
  await records.bulkPut((await records.toArray()).map((record) => ({ ...record, view: 0 })));
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
