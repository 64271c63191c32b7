/** A phone's database as the first version of the app kept it: the same phone, before it was updated. */
import { contentsOf, made } from "./disks";

const FIRST_VERSION = 10; // the library writes its version 1 as 10
const STORES = [
  { name: "records", keyPath: ["kind", "id"], indexes: [] },
  { name: "held", keyPath: ["kind", "id"], indexes: [] },
  { name: "changes", keyPath: "change_id", indexes: ["number", "acked", ["kind", "record_id"]].map(indexOn) },
  { name: "refused", keyPath: "change_id", indexes: [] },
  { name: "meta", keyPath: "key", indexes: [] },
  { name: "drafts", keyPath: "key", indexes: [] },
] as const;

const KEPT: Readonly<Record<string, readonly string[]>> = {
  records: ["kind", "id", "fields", "sequence"],
  held: ["kind", "id", "fields", "sequence"],
  changes: "change_id number kind record_id fields seen device_time schema acked".split(" "),
  refused: "change_id kind record_id fields reason message at".split(" "),
  meta: "key steps deviceId database cursor nextNumber joined mustJoinAgain person lastSentAt clockOffsetMs".split(" "),
  drafts: ["key", "text"],
};
const META_KEPT = ["account", "undo"];

function indexOn(path: string | string[]) {
  const name = Array.isArray(path) ? `[${path.join("+")}]` : path;
  return { name, keyPath: path, unique: false, multiEntry: false };
}

/** Puts the phone back to the first version's database, with everything that one could hold. */
export async function asVersion1(disk: string): Promise<void> {
  const contents = await contentsOf(disk);
  const kept = STORES.map(({ name }) => [name, rowsOf(name, contents).map((row) => cut(name, row))] as const);
  await made(disk, FIRST_VERSION, STORES as unknown as Parameters<typeof made>[2], Object.fromEntries(kept));
}

function rowsOf(store: string, contents: Awaited<ReturnType<typeof contentsOf>>): readonly unknown[] {
  const rows = contents[store] ?? [];
  return store === "meta" ? rows.filter((row) => META_KEPT.includes((row as { key: string }).key)) : rows;
}

function cut(store: string, row: unknown): object {
  const names = KEPT[store] ?? [];
  return Object.fromEntries(Object.entries(row as object).filter(([name]) => names.includes(name)));
}
