/** A phone without room: writes to the database named fail as a browser's do, for as long as the test says. */
import "fake-indexeddb/auto";

const full = new Map<string, (store: string, row: unknown) => boolean>();

/** Every write for which `isTooMuch` holds fails, in the database of that name. */
export function fillDisk(name: string, isTooMuch: (store: string, row: unknown) => boolean = () => true): void {
  full.set(name, isTooMuch);
}

export function emptyDisk(name: string): void {
  full.delete(name);
}

for (const method of ["put", "add"] as const) {
  const original = Reflect.get(IDBObjectStore.prototype, method) as (...told: unknown[]) => IDBRequest;
  Object.assign(IDBObjectStore.prototype, {
    [method](this: IDBObjectStore, ...told: unknown[]) {
      const isTooMuch = full.get(this.transaction.db.name);
      if (isTooMuch?.(this.name, told[0]) === true) throw new DOMException("No room.", "QuotaExceededError");
      return original.apply(this, told);
    },
  });
}
