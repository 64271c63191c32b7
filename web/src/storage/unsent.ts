/**
 * Everything that has not reached the office, as the text of a file. It reads the database with the browser's own means
 * alone: the app and a page without the app's code both use it, and what cannot be read is named instead of failing.
 * The format stands in web/README.md.
 */
import type { Change, Refused } from "../wire";
import { opened, readStore, type Missing, type Raw } from "./raw";
import { unsentPictures, type UnsentPicture } from "./unsent_photos";

export const UNSENT_VERSION = 1;
export const DATABASE = "evenbed";

export interface UnsentContents {
  readonly evenbed_unsent: number;
  /** ISO 8601, by this phone's clock. */
  readonly made_at: string;
  /** The office's clock minus this phone's, ms; null until measured. */
  readonly clock_offset_ms: number | null;
  /** Identity of the office's database that `seen` was counted in; null for a phone that never joined. */
  readonly database: string | null;
  readonly device_id: string | null;
  readonly device_name: string | null;
  readonly person_id: string | null;
  readonly person: string | null;
  /** In the order of their numbers. */
  readonly changes: readonly Change[];
  readonly refused: readonly Refused[];
  readonly drafts: readonly { readonly key: string; readonly text: string }[];
  readonly photos: readonly UnsentPicture[];
  readonly missing: readonly Missing[];
}

export interface UnsentFile {
  readonly name: string;
  readonly text: string;
  /** Waiting changes in it. */
  readonly count: number;
  readonly missing: readonly Missing[];
}

/** Never rejects: a database that cannot even be opened gives a file that says so. */
export async function unsentFile(name = DATABASE): Promise<UnsentFile> {
  const missing: Missing[] = [];
  const database = await opened(name, missing);
  const contents = await gathered(database, missing);
  database?.close();
  const text = JSON.stringify(contents, null, 1);
  return { name: fileName(contents), text, count: contents.changes.length, missing };
}

function fileName({ made_at }: UnsentContents): string {
  return `evenbed-unsent-${made_at.slice(0, 16).replace(/[^0-9]/g, "-")}.json`;
}

async function gathered(database: IDBDatabase | null, missing: Missing[]): Promise<UnsentContents> {
  const read = (store: string) => (database === null ? Promise.resolve([]) : readStore(database, store, missing));
  const account = (await read("meta")).find((row) => row["key"] === "account") ?? {};
  const queued = (await read("changes")).filter((change) => change["acked"] === 0);
  return {
    evenbed_unsent: UNSENT_VERSION,
    made_at: new Date().toISOString(),
    clock_offset_ms: typeof account["clockOffsetMs"] === "number" ? account["clockOffsetMs"] : null,
    database: textOf(account, "database"),
    device_id: textOf(account, "deviceId"),
    device_name: textOf(account, "deviceName"),
    person_id: textOf(account, "personId"),
    person: textOf(account, "person"),
    changes: queued.sort((a, b) => Number(a["number"]) - Number(b["number"])).map(withoutAcked),
    refused: (await read("refused")) as unknown as readonly Refused[],
    drafts: (await read("drafts")) as unknown as UnsentContents["drafts"],
    photos: database === null ? [] : await unsentPictures(database, missing),
    missing,
  };
}

function textOf(account: Raw, name: string): string | null {
  const value = account[name];
  return typeof value === "string" ? value : null;
}

function withoutAcked({ acked: _acked, ...change }: Raw): Change {
  return change as unknown as Change;
}
