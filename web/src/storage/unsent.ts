/**
 * Everything that has not reached the office, as the text of a file. It reads the database with the browser's own means
 * alone: the app and a page without the app's code both use it, and what cannot be read is named instead of failing.
 * The format stands in web/README.md.
 */
import type { Change, Refused } from "../wire";

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
  readonly missing: readonly Missing[];
}

/** A part of the database that could not be read, and is not in the file. */
export interface Missing {
  readonly part: string;
  readonly why: string;
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

type Raw = Readonly<Record<string, unknown>>;

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

/** The database as it is, whatever its version; null where there is none or it cannot be opened. */
async function opened(name: string, missing: Missing[]): Promise<IDBDatabase | null> {
  try {
    return await openAsItIs(name);
  } catch (error) {
    missing.push({ part: "database", why: whyOf(error) });
    return null;
  }
}

const OPEN_WAIT_MS = 10_000;

/** Null where there is no database: nothing was ever stored. Making an empty one here would mislead the app. */
function openAsItIs(name: string): Promise<IDBDatabase | null> {
  return new Promise((resolve, reject) => {
    let isLate = false;
    const request = indexedDB.open(name);
    request.onupgradeneeded = () => {
      request.transaction?.abort();
      resolve(null);
    };
    request.onsuccess = () => (isLate ? request.result.close() : resolve(request.result));
    request.onerror = () => reject(request.error ?? new Error("It does not open."));
    setTimeout(() => {
      isLate = true;
      reject(new Error("It does not answer. Close the other tabs of the app."));
    }, OPEN_WAIT_MS);
  });
}

/** All rows of a store at once; where that fails, one by one as far as they go. */
async function readStore(database: IDBDatabase, store: string, missing: Missing[]): Promise<Raw[]> {
  try {
    return await answered(storeOf(database, store).getAll() as IDBRequest<Raw[]>);
  } catch (error) {
    return readOneByOne(database, store, missing, error);
  }
}

async function readOneByOne(database: IDBDatabase, store: string, missing: Missing[], first: unknown): Promise<Raw[]> {
  const rows: Raw[] = [];
  try {
    const keys = await answered(storeOf(database, store).getAllKeys());
    for (const key of keys) await readOne(database, store, key, { rows, missing });
  } catch {
    missing.push({ part: store, why: whyOf(first) });
  }
  return rows;
}

async function readOne(
  database: IDBDatabase,
  store: string,
  key: IDBValidKey,
  into: { readonly rows: Raw[]; readonly missing: Missing[] },
): Promise<void> {
  try {
    into.rows.push(await answered(storeOf(database, store).get(key) as IDBRequest<Raw>));
  } catch (error) {
    into.missing.push({ part: `${store} ${JSON.stringify(key)}`, why: whyOf(error) });
  }
}

function storeOf(database: IDBDatabase, store: string): IDBObjectStore {
  return database.transaction(store, "readonly").objectStore(store);
}

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("It could not be read."));
  });
}

function whyOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? `${error.name}: ${error.message}` : String(error);
}
