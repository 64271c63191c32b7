import "fake-indexeddb/auto";
import { Dexie } from "dexie";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Storage, StorageError, type News, type Standing } from "../../src/storage";
import { storageErrorFrom } from "../../src/storage/errors";
import type { Edit } from "../../src/wire";

let name: string;
let storage: Storage;
let standing: Standing | null;

beforeEach(() => {
  name = `test-${crypto.randomUUID()}`;
  storage = opened();
});
afterEach(() => storage.close());

function opened(): Storage {
  const made = new Storage(name);
  made.onStanding((now) => (standing = now));
  return made;
}

function room(id: string, fields: Edit<"room">["fields"]): Edit<"room"> {
  return { kind: "room", id, fields };
}

test("changes get the numbers 1, 2, 3 in the order they were saved, also when saved at once", async () => {
  await Promise.all([1, 2, 3, 4, 5].map((n) => storage.write([room(`r${n}`, { name: `${n}` })], { undo: [] })));
  const waiting = await storage.waiting(10);
  expect(waiting.map((change) => change.number)).toEqual([1, 2, 3, 4, 5]);
  expect(waiting.map((change) => change.record_id)).toEqual(["r1", "r2", "r3", "r4", "r5"]);
  expect(standing?.waiting).toBe(5);
});

test("a saved change, its undo step and the end of its draft are one transaction", async () => {
  await storage.saveDraft("reading", "3 5/16");
  const undo = [{ at: "2026-05-04T08:30:00Z", inverse: [room("r", { deleted: true })] }];
  await storage.write([room("r", { name: "Hall" })], { undo, clearDraft: "reading" });
  storage.close();
  storage = opened();
  const loaded = await storage.load();
  expect(loaded.rows).toMatchObject([{ id: "r", fields: { name: "Hall" }, waiting: 1, sequence: 0 }]);
  expect(loaded.undo).toEqual(undo);
  expect(loaded.drafts).toEqual([]);
});

test("a write that fails changes nothing and says so", async () => {
  await storage.saveDraft("reading", "3 5/16");
  const unstorable = room("r", { name: (() => "no") as unknown as string });
  const failing = storage.write([room("q", { name: "Hall" }), unstorable], { undo: [], clearDraft: "reading" });
  await expect(failing).rejects.toBeInstanceOf(StorageError);
  const loaded = await storage.load();
  expect(loaded.rows).toEqual([]);
  expect(loaded.drafts).toEqual([["reading", "3 5/16"]]);
  await storage.write([room("q", { name: "Hall" })], { undo: [] });
  expect((await storage.waiting(10)).map((change) => change.number)).toEqual([1]);
});

test("a full disk is told from other failures, however deep the browser buries it", () => {
  const quota = new DOMException("full", "QuotaExceededError");
  const abort = Object.assign(new Dexie.AbortError("aborted"), { inner: quota });
  expect(storageErrorFrom(quota).reason).toBe("full");
  expect(storageErrorFrom(abort).reason).toBe("full");
  expect(storageErrorFrom(new Dexie.OpenFailedError("no database here")).reason).toBe("not_available");
  expect(storageErrorFrom(new TypeError("odd")).reason).toBe("failed");
});

test("closing the database makes writes fail as not available, not hang", async () => {
  storage.close();
  await expect(storage.write([room("r", {})], { undo: [] })).rejects.toMatchObject({ reason: "not_available" });
  storage = opened();
});

test("what another tab saves is shown in this one", async () => {
  const news: News[] = [];
  storage.onNews((one) => news.push(one));
  const other = new Storage(name);
  await other.write([room("r", { name: "Hall" })], { undo: [] });
  await expect.poll(() => news.flatMap(({ rows }) => rows.map((row) => row.fields))).toEqual([{ name: "Hall" }]);
  expect(standing?.waiting).toBe(1);
  other.close();
});

test("two tabs never give one number twice", async () => {
  const other = new Storage(name);
  const tabOf = (n: number) => (n % 2 === 0 ? storage : other);
  await Promise.all(
    Array.from({ length: 20 }, (_, n) => tabOf(n).write([room(`r${n}`, { name: `${n}` })], { undo: [] })),
  );
  const numbers = (await storage.waiting(100)).map((change) => change.number);
  expect(numbers).toEqual(Array.from({ length: 20 }, (_, n) => n + 1));
  other.close();
});

test("a page of records and the cursor go together, and a page asked for twice changes nothing", async () => {
  const made = { created_by: "d", changed_by: "d", changed_at: "2026-05-04T08:30:00Z" };
  await storage.adoptDatabase("d");
  const asked = { after: 0, view: 0 };
  const page = {
    database: "d",
    view: 1,
    protocol: 1,
    server_time: "2026-05-04T08:30:00Z",
    latest: 7,
    more: false,
    next: 7,
    records: [{ kind: "job" as const, id: "j", fields: { name: "Mill house" }, sequence: 7, conflicts: {}, ...made }],
  };
  expect(await storage.takePage(asked, page)).toBe(true);
  const once = await storage.load();
  expect(await storage.takePage(asked, page)).toBe(true);
  expect(await storage.load()).toEqual(once);
  const shown = { kind: "job", id: "j", fields: { name: "Mill house" }, sequence: 7, waiting: 0, conflicts: {} };
  expect(once.rows).toEqual([shown]);
  expect((await storage.account()).cursor).toBe(7);
});

test("each device gets its own identity, and keeps it", async () => {
  const { deviceId } = await storage.account();
  const other = new Storage(`${name}-other`);
  expect((await other.account()).deviceId).not.toBe(deviceId);
  other.close();
  storage.close();
  storage = opened();
  expect((await storage.account()).deviceId).toBe(deviceId);
});
