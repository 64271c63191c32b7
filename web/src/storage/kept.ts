/** Answers of the office kept for looking at without a network: stories of records, and who works with it. */
import type { HistoryEntry, Kind, Unsent } from "../wire";
import type { PhoneDatabase, StoredHistory } from "./database";

/** Stories kept; the oldest answers go first. */
const MOST_HISTORIES = 200;

export async function keepHistory(
  database: PhoneDatabase,
  { kind, id, entries }: { readonly kind: Kind; readonly id: string; readonly entries: readonly HistoryEntry[] },
): Promise<StoredHistory> {
  const history = { kind, id, entries, at: new Date().toISOString() };
  await database.histories.put(history);
  const tooMany = (await database.histories.count()) - MOST_HISTORIES;
  if (tooMany > 0) await database.histories.bulkDelete(await database.histories.orderBy("at").limit(tooMany).primaryKeys());
  return history;
}

export async function unsentOf(database: PhoneDatabase, kind: Kind, id: string): Promise<readonly Unsent[]> {
  const changes = await database.changes.where("[kind+record_id]").equals([kind, id]).sortBy("number");
  return changes
    .filter((change) => change.acked === 0)
    .map(({ change_id, fields, device_time }) => ({ change_id, fields, device_time }));
}
