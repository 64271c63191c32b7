/**
 * The world around the phones, as the machine that drives them decides it: what a phone's clock shows, when its battery
 * dies, when its disk is full. One phone is at work at any moment, so one clock is enough; every message sets it.
 */
import "fake-indexeddb/auto";
import { countIdsAnew } from "./ids";

const TrueDate = Date;
let clockMs = 0;

/** What the clock of the phone at work shows, ms since 1970, until the next message. */
export function setClock(ms: number): void {
  clockMs = ms;
}

class PhoneDate extends TrueDate {
  constructor(...told: [] | [string | number | Date]) {
    if (told.length === 0) super(clockMs);
    else super(told[0]);
  }

  static override now(): number {
    return clockMs;
  }
}
globalThis.Date = PhoneDate as DateConstructor;

/** The same steps give the same identifiers, as far as they come from chance. */
let chance = 1;
export function beginAnew(): void {
  chance = 1;
  countIdsAnew();
  due.clear();
  dead.clear();
}

Object.assign(globalThis.crypto, {
  getRandomValues<T extends Uint8Array | Uint32Array>(values: T): T {
    for (let index = 0; index < values.length; index++) {
      chance = (Math.imul(chance, 1_664_525) + 1_013_904_223) >>> 0;
      values[index] = chance >>> 4;
    }
    return values;
  },
});

export type Trouble = "dies" | "full";

interface Due {
  readonly how: Trouble;
  /** Writes that still go well before it happens. */
  left: number;
}

/** By the name of the disk. A dead disk takes nothing until its phone is started again. */
const due = new Map<string, Due>();
const dead = new Set<string>();

export function plan(disk: string, how: Trouble, after: number): void {
  due.set(disk, { how, left: after });
}

export function die(disk: string): void {
  dead.add(disk);
  due.delete(disk);
}

export function isDead(disk: string): boolean {
  return dead.has(disk);
}

/** Takes back what was planned, and whatever was dead lives. */
export function calm(disk: string): void {
  due.delete(disk);
  dead.delete(disk);
}

const outsiders = new WeakSet<IDBDatabase>();

/** A connection that is not the phone's own: no trouble of the phone's touches it. */
export function asOutsider(database: IDBDatabase): IDBDatabase {
  outsiders.add(database);
  return database;
}

/** One write reaches the disk: the battery may end just here, in the middle of a transaction, or the room on the disk. */
function beforeWrite(transaction: IDBTransaction): void {
  const disk = transaction.db.name;
  const planned = outsiders.has(transaction.db) ? undefined : due.get(disk);
  if (planned === undefined || planned.left-- > 0) return;
  due.delete(disk);
  if (planned.how === "full") throw new DOMException("No room on the disk.", "QuotaExceededError");
  die(disk);
  transaction.abort();
  throw new DOMException("The battery is empty.", "AbortError");
}

for (const name of ["put", "add", "delete", "clear"] as const) {
  const original = Reflect.get(IDBObjectStore.prototype, name) as (...told: unknown[]) => IDBRequest;
  Object.assign(IDBObjectStore.prototype, {
    [name](this: IDBObjectStore, ...told: unknown[]) {
      beforeWrite(this.transaction);
      return original.apply(this, told);
    },
  });
}

const begin = Reflect.get(IDBDatabase.prototype, "transaction") as (...told: unknown[]) => IDBTransaction;
Object.assign(IDBDatabase.prototype as object, {
  transaction(this: IDBDatabase, ...told: unknown[]) {
    const isOwn = !outsiders.has(this) && told[1] !== "versionchange";
    if (isOwn && dead.has(this.name)) throw new DOMException("The battery is empty.", "InvalidStateError");
    return begin.apply(this, told);
  },
});
