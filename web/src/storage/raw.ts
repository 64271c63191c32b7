/** Reading a database with the browser's own means alone: for where the app's library no longer gets in. */

/** A part of the database that could not be read. */
export interface Missing {
  readonly part: string;
  readonly why: string;
}

export type Raw = Readonly<Record<string, unknown>>;

/** The database as it is, whatever its version; null where there is none, or where it cannot be opened. */
export async function opened(name: string, missing: Missing[]): Promise<IDBDatabase | null> {
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

/** All rows of a store at once; where that fails, one by one as far as they go. What is not there is named. */
export async function readStore(database: IDBDatabase, store: string, missing: Missing[]): Promise<Raw[]> {
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

export function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("It could not be read."));
  });
}

export function whyOf(error: unknown): string {
  return error instanceof Error || error instanceof DOMException ? `${error.name}: ${error.message}` : String(error);
}
