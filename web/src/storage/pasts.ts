/** The histories of jobs that were opened on this phone, fetched in pages: for a job's file, which must work without a network. */
import type { JobHistoryReply } from "../wire";
import { loadAccount, type PhoneDatabase, type StoredOpened } from "./database";

/** Jobs whose history is kept; the one opened longest ago goes first. */
const MOST_OPENED = 12;

export async function noteOpened(database: PhoneDatabase, jobId: string, at: string): Promise<void> {
  const known = await database.opened.get(jobId);
  await database.opened.put({ next: 0, isWhole: false, ...known, job_id: jobId, at });
  const tooMany = (await database.opened.count()) - MOST_OPENED;
  if (tooMany <= 0) return;
  const gone = await database.opened.orderBy("at").limit(tooMany).primaryKeys();
  await forgetPasts(database, gone);
  await database.opened.bulkDelete(gone);
}

/** Jobs of which the office may have more to tell. */
export async function pastsToFetch(database: PhoneDatabase): Promise<readonly StoredOpened[]> {
  const { cursor } = await loadAccount(database);
  const opened = await database.opened.toArray();
  const here = await database.records.bulkGet(opened.map(({ job_id }): ["job", string] => ["job", job_id]));
  return opened.filter((one, index) => here[index] !== undefined && (!one.isWhole || one.next < cursor));
}

/** Takes a page that follows on what is here; false where it does not, or is of another database. */
export async function keepPast(database: PhoneDatabase, asked: StoredOpened, page: JobHistoryReply): Promise<boolean> {
  const { job_id } = asked;
  const known = await database.opened.get(job_id);
  if (known?.next !== asked.next || (await loadAccount(database)).database !== page.database) return false;
  await database.pasts.bulkPut(page.changes.map((change) => ({ ...change, job_id })));
  await database.opened.put({ ...known, next: page.next, isWhole: !page.more });
  return page.more;
}

/** They can be fetched again. */
export async function forgetPasts(database: PhoneDatabase, jobIds: readonly string[]): Promise<void> {
  for (const jobId of jobIds) {
    await database.pasts.where("[job_id+sequence]").between([jobId, 0], [jobId, Infinity]).delete();
    await database.opened.where({ job_id: jobId }).modify({ next: 0, isWhole: false });
  }
}

export async function dropPasts(database: PhoneDatabase): Promise<void> {
  await database.transaction("rw", database.pasts, database.opened, async () => {
    await database.pasts.clear();
    await database.opened.toCollection().modify({ next: 0, isWhole: false });
  });
}
