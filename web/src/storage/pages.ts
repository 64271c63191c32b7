/**
 * Taking what the service tells, page by page. Where the jobs that the person sees have changed, the service answers
 * with a snapshot from the start: its records are stamped with the new view as they come, everything else stays on
 * show, and only after the last page is dropped what did not come with it. So it may end at any page.
 */
import type { PulledRecord, PullReply } from "../wire";
import { loadAccount, type Account, type PhoneDatabase, type RecordKey, type StoredRecord } from "./database";
import { forgetPasts } from "./pasts";

/** What a pull asked for: its reply says nothing about the phone as it may be by now. */
export interface Asked {
  readonly after: number;
  readonly view: number;
}

/** Null where the page does not follow on what is here: another tab was faster, or the database is another one. */
export async function takePage(
  database: PhoneDatabase,
  asked: Asked,
  page: PullReply,
): Promise<readonly RecordKey[] | null> {
  const account = accountAfter(await loadAccount(database), asked, page);
  if (account === null) return null;
  await putNewer(database, page);
  const covered = await dropCovered(database, account, page);
  const swept = page.more || !account.sweeping ? [] : await sweep(database, account.view);
  await database.meta.put(page.more ? account : { ...account, sweeping: false });
  return [...page.records.map(({ kind, id }): RecordKey => [kind, id]), ...covered, ...swept];
}

function accountAfter(account: Account, asked: Asked, page: PullReply): Account | null {
  if (page.database !== account.database) return null;
  const after = page.view === asked.view ? asked.after : 0;
  if (page.view === account.view) {
    return after > account.cursor ? null : { ...account, cursor: Math.max(account.cursor, page.next) };
  }
  return after > 0 ? null : { ...account, view: page.view, cursor: page.next, sweeping: true };
}

/** A page asked for twice, by two tabs, may arrive late: what is here and newer stays. */
async function putNewer(database: PhoneDatabase, { records, view }: PullReply): Promise<void> {
  const here = await database.records.bulkGet(records.map(({ kind, id }): [StoredRecord["kind"], string] => [kind, id]));
  await database.records.bulkPut(records.map((record, index) => newer(here[index], storedFrom(record, view))));
}

function newer(here: StoredRecord | undefined, told: StoredRecord): StoredRecord {
  return here !== undefined && here.sequence > told.sequence ? { ...here, view: told.view ?? 0 } : told;
}

function storedFrom(record: PulledRecord, view: number): StoredRecord {
  const { kind, id, fields, sequence, conflicts, changed_at, changed_by, times } = record;
  return { kind, id, fields, sequence, conflicts, changed_at, changed_by, view, ...(times === undefined ? {} : { times }) };
}

/** Changes that have done their work: their record came with their number, or the pull has come past it to its end. */
async function dropCovered(database: PhoneDatabase, { cursor }: Account, page: PullReply): Promise<readonly RecordKey[]> {
  const sequences = new Map(page.records.map((record) => [`${record.kind}/${record.id}`, record.sequence]));
  const acked = await database.changes.where("acked").between(1, cursor, true, true).toArray();
  const covered = acked.filter(
    (change) => !page.more || change.acked <= (sequences.get(`${change.kind}/${change.record_id}`) ?? 0),
  );
  await database.changes.bulkDelete(covered.map((change) => change.change_id));
  return covered.map((change) => [change.kind, change.record_id]);
}

/**
 * Drops the records of an earlier view, and their stories. A record without a view was stored during the snapshot by a
 * tab with the app's first version: it counts as come with it.
 */
async function sweep(database: PhoneDatabase, view: number): Promise<readonly RecordKey[]> {
  const all = await database.records.toArray(); // at once: a cursor over ten thousand takes seconds on a phone
  const old = all.filter((record) => record.view !== undefined && record.view !== view);
  const keys = old.map(({ kind, id }): [StoredRecord["kind"], string] => [kind, id]);
  await database.records.bulkDelete(keys);
  await database.histories.bulkDelete(keys);
  await forgetPasts(database, keys.filter(([kind]) => kind === "job").map(([, id]) => id));
  const unstamped = all.filter((record) => record.view === undefined);
  await database.records.bulkPut(unstamped.map((record) => ({ conflicts: {}, ...record, view })));
  return keys;
}
