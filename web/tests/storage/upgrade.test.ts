import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Storage, type Standing } from "../../src/storage";
import type { PulledRecord, PullReply } from "../../src/wire";
import { job } from "../sync/phone";
import { FirstVersion, record } from "./first_version";
import { emptyDisk, fillDisk } from "./full_disk";

let name: string;
let old: FirstVersion;
let storage: Storage;
let standing: Standing | null;

beforeEach(async () => {
  name = `upgrade-${crypto.randomUUID()}`;
  old = new FirstVersion(name);
  await old.fill();
  storage = new Storage(name);
  storage.onStanding((now) => (standing = now));
});
afterEach(() => {
  old.close();
  storage.close();
});

async function shown(): Promise<Readonly<Record<string, unknown>>> {
  return Object.fromEntries((await storage.load()).rows.map((row) => [row.id, row.fields]));
}

function pulled(id: string, fields: PulledRecord["fields"], sequence: number): PulledRecord {
  const made = { created_by: "Ana", changed_by: "Ana", changed_at: "2026-05-04T08:30:00Z" };
  return { kind: "job", id, fields, sequence, conflicts: {}, ...made };
}

function page(records: readonly PulledRecord[], more: Partial<PullReply>): PullReply {
  const server_time = "2026-05-04T08:30:00Z";
  return { database: "the office", protocol: 1, server_time, latest: 9, next: 9, view: 1, more: false, records, ...more };
}

test("a database of the first version opens with everything it held", async () => {
  old.close();
  const loaded = await storage.load();
  expect(await shown()).toEqual({
    j1: { name: "Mill house", note: "Sent, not pulled yet" },
    j2: { name: "Barn", note: "Waits" },
    j3: { name: "Of an earlier database" },
    j4: { name: "Waits too" },
  });
  expect(loaded.drafts).toEqual([["reading", "3 5/1"]]);
  expect(loaded.undo).toEqual([{ at: "2026-05-04T08:30:00Z", inverse: [] }]);
  expect((await storage.waiting(9)).map((one) => [one.change_id, one.number])).toEqual([["change-5", 5], ["change-6", 6]]);
  expect(standing?.refused.map((one) => one.fields)).toEqual([{ name: "Refused" }]);
  expect(standing?.account).toMatchObject({ joined: true, cursor: 7, nextNumber: 7, person: "Ana", removed: false });
});

test("the first pull after it asks from a view that nobody has, so that it brings everything anew", async () => {
  old.close();
  const { cursor, view } = await storage.account();
  expect(view).toBe(0);
  await storage.takePage({ after: cursor, view }, page([pulled("j2", { name: "Barn" }, 7)], {}));
  expect(await shown()).toMatchObject({ j2: { name: "Barn", note: "Waits" }, j4: { name: "Waits too" } });
  expect(Object.keys(await shown())).not.toContain("j1");
});

test("a tab that still runs the first version lets the database go, and goes on saving in it", async () => {
  await storage.load();
  await old.save("j5", { name: "Saved by the old tab" });
  expect(await shown()).toMatchObject({ j5: { name: "Saved by the old tab" } });
  await storage.write([job("j6", "Saved by the new one")], { undo: [] });
  await old.save("j7", { name: "Again by the old one" });
  expect((await storage.waiting(9)).map((one) => one.number)).toEqual([5, 6, 7, 8, 9]);
  expect(await storage.account()).toMatchObject({ nextNumber: 10 });
});

test("what a tab with the first version pulls in the middle of a snapshot is not dropped at its end", async () => {
  const first = page([pulled("j1", { name: "Mill house" }, 3)], { more: true, next: 3 });
  expect(await storage.takePage({ after: 7, view: 0 }, first)).toBe(true);
  await old.takePage([record("j8", { name: "Pulled by the old tab" }, 9)], 9);
  expect(await storage.takePage({ after: 9, view: 1 }, page([], {}))).toBe(true);
  expect(await shown()).toMatchObject({ j8: { name: "Pulled by the old tab" }, j1: { name: "Mill house" } });
});

test("a tab that does not let go is told of, and the app starts once it is closed", async () => {
  old.close();
  const holding = await new Promise<IDBDatabase>((resolve) => {
    const request = indexedDB.open(name);
    request.onsuccess = () => resolve(request.result);
  });
  let blocked = 0;
  storage.onBlocked(() => (blocked += 1));
  const loading = storage.load();
  await expect.poll(() => blocked).toBe(1);
  holding.close();
  expect((await loading).rows).toHaveLength(4);
});

test("a phone too full to be brought up to date says so, keeps what it held, and starts once there is room", async () => {
  old.close();
  fillDisk(name);
  await expect(storage.load()).rejects.toMatchObject({ reason: "full" });
  emptyDisk(name);
  const again = new Storage(name);
  expect((await again.load()).rows).toHaveLength(4);
  again.close();
});
