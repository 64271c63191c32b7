/** Answers of the office kept for looking at without a network: stories of records, and who works with it. */
import type { Kind, Unsent } from "../wire";
import type { PhoneDatabase, StoredHistory } from "./database";
import { folded } from "./merge";

/** Stories kept; the oldest answers go first. */
const MOST_HISTORIES = 200;

export async function keepHistory(database: PhoneDatabase, history: StoredHistory): Promise<void> {
  await database.histories.put(history);
  const tooMany = (await database.histories.count()) - MOST_HISTORIES;
  if (tooMany > 0) await database.histories.bulkDelete(await database.histories.orderBy("at").limit(tooMany).primaryKeys());
}

export async function unsentOf(database: PhoneDatabase, kind: Kind, id: string): Promise<readonly Unsent[]> {
  const changes = await database.changes.where("[kind+record_id]").equals([kind, id]).sortBy("number");
  const { met } = folded({ fields: {} }, changes);
  return changes
    .map(({ change_id, fields, device_time, origin, acked }, index) => ({ change_id, fields, device_time, origin, acked, ...met[index] }))
    .filter(({ acked }) => acked === 0)
    .map(({ acked: _acked, ...unsent }) => unsent);
}
