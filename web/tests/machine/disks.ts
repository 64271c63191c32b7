/** Phones' databases looked at and copied from outside the app, as a backup of the whole phone would. */
import { asOutsider } from "./world";

type Contents = Readonly<Record<string, readonly unknown[]>>;

/** Everything in the database, by store. */
export async function contentsOf(disk: string): Promise<Contents> {
  const database = await opened(disk);
  const names = [...database.objectStoreNames];
  const transaction = database.transaction(names, "readonly");
  const all = await Promise.all(names.map((name) => answered(transaction.objectStore(name).getAll())));
  database.close();
  return Object.fromEntries(names.map((name, index) => [name, all[index] ?? []]));
}

/** A second database with the same stores, indexes and contents; what `to` held before is gone. */
export async function copyDisk(from: string, to: string): Promise<void> {
  const [contents, source] = [await contentsOf(from), await opened(from)];
  const stores = storesOf(source);
  source.close();
  await made(to, source.version, stores, contents);
}

export async function wipeDisk(disk: string): Promise<void> {
  await answered(indexedDB.deleteDatabase(disk));
}

interface Index {
  readonly name: string;
  readonly keyPath: string | string[];
  readonly unique: boolean;
  readonly multiEntry: boolean;
}

interface Store {
  readonly name: string;
  readonly keyPath: string | string[] | null;
  readonly indexes: readonly Index[];
}

function storesOf(database: IDBDatabase): readonly Store[] {
  const names = [...database.objectStoreNames];
  const transaction = database.transaction(names, "readonly");
  return names.map((name) => {
    const store = transaction.objectStore(name);
    const indexes = [...store.indexNames].map((index) => store.index(index));
    return { name, keyPath: store.keyPath, indexes: indexes.map(indexFrom) };
  });
}

function indexFrom({ name, keyPath, unique, multiEntry }: IDBIndex): Index {
  return { name, keyPath, unique, multiEntry };
}

/** Makes a database anew with these stores and what `contents` has for them. */
export async function made(
  disk: string,
  version: number,
  stores: readonly Store[],
  contents: Contents,
): Promise<void> {
  await wipeDisk(disk);
  const request = indexedDB.open(disk, version);
  request.onupgradeneeded = () => {
    for (const store of stores) makeStore(request.result, store);
  };
  const database = asOutsider(await answered(request));
  const transaction = database.transaction([...database.objectStoreNames], "readwrite");
  const puts = stores.flatMap(({ name }) =>
    (contents[name] ?? []).map((row) => answered(transaction.objectStore(name).put(row))),
  );
  await Promise.all(puts);
  database.close();
}

function makeStore(database: IDBDatabase, { name, keyPath, indexes }: Store): void {
  const store = database.createObjectStore(name, { keyPath });
  for (const { name: index, keyPath: path, ...how } of indexes) store.createIndex(index, path, how);
}

async function opened(disk: string): Promise<IDBDatabase> {
  return asOutsider(await answered(indexedDB.open(disk)));
}

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("The database did not answer."));
  });
}
