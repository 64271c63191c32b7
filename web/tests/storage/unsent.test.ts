import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Storage } from "../../src/storage";
import { unsentFile, type UnsentContents } from "../../src/storage/unsent";
import { OfficeDouble } from "../sync/office_double";
import { job, Phone } from "../sync/phone";
import { randomFrom } from "../sync/random";
import { FirstVersion } from "./first_version";

let office: OfficeDouble;
let phones: Phone[];

beforeEach(() => {
  office = new OfficeDouble();
  phones = [];
});
afterEach(() => {
  vi.restoreAllMocks();
  phones.forEach((phone) => phone.close());
});

function newPhone(): Phone {
  const phone = new Phone(office);
  phones.push(phone);
  return phone;
}

async function joined(): Promise<Phone> {
  const phone = newPhone();
  await phone.join();
  return phone;
}

async function textOf({ storage }: { readonly storage: Storage }): Promise<string> {
  return (await storage.unsentFile()).text;
}

function contentsOf(text: string): UnsentContents {
  return JSON.parse(text) as UnsentContents;
}

test("what a removed phone had not sent goes by file to another phone, and from there to the office, once", async () => {
  const [lost, other] = [await joined(), await joined()];
  office.removed.add(lost.line.device ?? "");
  await lost.save(job("a", "Mill house"), job("b", "Barn"));
  await lost.sync();
  const file = await lost.storage.unsentFile();
  expect([file.count, file.missing]).toEqual([2, []]);
  expect(file.name).toMatch(/^evenbed-unsent-\d{4}-\d\d-\d\d-\d\d-\d\d\.json$/);
  expect(await other.storage.readUnsentFile(file.text)).toEqual({ outcome: "read", count: 2 });
  expect(await other.storage.readUnsentFile(file.text)).toEqual({ outcome: "read", count: 0 });
  await other.sync();
  expect(await other.storage.readUnsentFile(file.text)).toEqual({ outcome: "read", count: 0 });
  expect(office.log.map(({ change }) => change.record_id)).toEqual(["a", "b"]);
  await lost.join();
  expect(lost.standing?.waiting).toBe(0);
  expect(office.log).toHaveLength(2);
});

test("refused values and half-typed drafts come along, and take nobody's place", async () => {
  const [from, to] = [await joined(), await joined()];
  office.unwanted.add("bad");
  await from.save(job("bad", "Refused"));
  await from.sync();
  await from.storage.saveDraft("reading", "3 5/1");
  await from.storage.saveDraft("name", "Kitch");
  await to.storage.saveDraft("name", "My own");
  expect(await to.storage.readUnsentFile(await textOf(from))).toEqual({ outcome: "read", count: 0 });
  expect(to.standing?.refused).toMatchObject([{ fields: { name: "Refused" }, reason: "bad_value" }]);
  expect((await to.storage.load()).drafts).toEqual([["name", "My own"], ["reading", "3 5/1"]]);
});

test("pictures that the office has not got come along", async () => {
  const [from, to] = [await joined(), await joined()];
  const bytes = Uint8Array.from({ length: 20_000 }, (_, n) => n % 256);
  const photo = { hash: "a".repeat(64), media_type: "image/jpeg", width: 1, height: 1, bytes, thumbnail: bytes.slice(0, 9) } as const;
  await from.storage.write([], { undo: [], photo });
  await to.storage.readUnsentFile(await textOf(from));
  expect(await to.storage.photos.unsent()).toEqual([{ hash: photo.hash, problem: null }]);
  expect(await to.storage.photos.picture(photo.hash)).toEqual(bytes);
  expect(await to.storage.photos.thumbnail(photo.hash)).toEqual(photo.thumbnail);
});

test("what the other phone had seen counts only within the same database of the office", async () => {
  const [from, to] = [await joined(), await joined()];
  await from.save(job("a", "Mill house"));
  await from.sync();
  await from.save(job("a", "Mill"));
  const text = await textOf(from);
  await to.storage.readUnsentFile(text);
  expect((await to.storage.waiting(9)).map((change) => change.seen)).toEqual([1]);
  const elsewhere = new Phone(new OfficeDouble());
  phones.push(elsewhere);
  await elsewhere.join();
  await elsewhere.storage.readUnsentFile(text);
  expect((await elsewhere.storage.waiting(9)).map((change) => change.seen)).toEqual([0]);
});

test("a moment told by a clock that is wrong is put into the clock of the phone that brings it", async () => {
  const [from, to] = [await joined(), await joined()];
  await from.save(job("a", "Mill house"));
  const [change] = await from.storage.waiting(1);
  await from.storage.updateAccount({ clockOffsetMs: 86_400_000 });
  await to.storage.updateAccount({ clockOffsetMs: -60_000 });
  await to.storage.readUnsentFile(await textOf(from));
  const [brought] = await to.storage.waiting(1);
  expect(Date.parse(brought?.device_time ?? "") - Date.parse(change?.device_time ?? "")).toBe(86_400_000 + 60_000);
});

test("it is made from a database of the first version, and beside an app that holds it open", async () => {
  const name = `old-${crypto.randomUUID()}`;
  const old = new FirstVersion(name);
  await old.fill();
  const contents = contentsOf((await unsentFile(name)).text);
  expect(contents.changes.map((change) => change.change_id)).toEqual(["change-5", "change-6"]);
  expect(contents).toMatchObject({ person: "Ana", database: "the office", clock_offset_ms: 120, missing: [] });
  old.close();
});

test("without a database it says that nothing waits, and makes none", async () => {
  const name = `none-${crypto.randomUUID()}`;
  expect(await unsentFile(name)).toMatchObject({ count: 0, missing: [] });
  expect((await indexedDB.databases()).map((one) => one.name)).not.toContain(name);
});

test("a store that cannot be read at once is read row by row, and the rows that are broken are named", async () => {
  const phone = await joined();
  for (const id of ["a", "b", "c"]) await phone.save(job(id, id));
  const broken = (await phone.storage.waiting(9))[1]?.change_id ?? "";
  const get = Reflect.get(IDBObjectStore.prototype, "get") as (key: IDBValidKey) => IDBRequest;
  vi.spyOn(IDBObjectStore.prototype, "getAll").mockImplementation(() => {
    throw new DOMException("Corrupt.", "UnknownError");
  });
  vi.spyOn(IDBObjectStore.prototype, "get").mockImplementation(function (this: IDBObjectStore, key) {
    if (key === broken) throw new DOMException("Corrupt.", "UnknownError");
    return get.call(this, key as IDBValidKey);
  });
  const file = await unsentFile(phone.name);
  expect(contentsOf(file.text).changes.map((change) => change.record_id)).toEqual(["a", "c"]);
  expect(file.missing).toContainEqual({ part: `changes "${broken}"`, why: "UnknownError: Corrupt." });
  expect(contentsOf(file.text).missing).toEqual(file.missing);
});

test("a picture that is here in small alone is read in whole, and waits to be sent", async () => {
  const [from, to] = [await joined(), await joined()];
  const bytes = Uint8Array.from({ length: 5_000 }, (_, n) => n % 256);
  const photo = { hash: "b".repeat(64), media_type: "image/jpeg", width: 1, height: 1, bytes, thumbnail: bytes.slice(0, 9) } as const;
  await from.storage.write([], { undo: [], photo });
  await to.storage.photos.keepThumbnail(photo.hash, bytes.slice(0, 9));
  await to.storage.readUnsentFile(await textOf(from));
  expect(await to.storage.photos.unsent()).toEqual([{ hash: photo.hash, problem: null }]);
  expect(await to.storage.photos.picture(photo.hash)).toEqual(bytes);
  expect(await to.storage.photos.thumbnail(photo.hash)).toEqual(bytes.slice(0, 9));
});

test("a picture of the office that is here whole is not sent again for a file", async () => {
  const [from, to] = [await joined(), await joined()];
  const bytes = Uint8Array.from({ length: 5_000 }, (_, n) => n % 256);
  const photo = { hash: "c".repeat(64), media_type: "image/jpeg", width: 1, height: 1, bytes, thumbnail: bytes.slice(0, 9) } as const;
  await from.storage.write([], { undo: [], photo });
  await to.storage.photos.keepPicture(photo.hash, bytes);
  await to.storage.readUnsentFile(await textOf(from));
  expect(await to.storage.photos.unsent()).toEqual([]);
});

test("a database that does not open at all gives a file that says so", async () => {
  vi.spyOn(indexedDB, "open").mockImplementation(() => {
    throw new DOMException("No storage here.", "SecurityError");
  });
  const file = await unsentFile("evenbed");
  expect(file.missing).toEqual([{ part: "database", why: "SecurityError: No storage here." }]);
  expect(contentsOf(file.text).changes).toEqual([]);
});

test.each([
  ["a letter to somebody", "not_a_file_of_ours"],
  ["[]", "not_a_file_of_ours"],
  ['{"jobs": []}', "not_a_file_of_ours"],
  ['{"evenbed_unsent": 2, "changes": "in some new shape"}', "newer_version"],
  ['{"evenbed_unsent": 1}', "damaged"],
])("%s is no file that can be read in: %s", async (text, outcome) => {
  const phone = await joined();
  expect(await phone.storage.readUnsentFile(text)).toEqual({ outcome });
});

test("a file that broke off, or whose changes lost a part, is damaged, and nothing of it is taken", async () => {
  const [from, to] = [await joined(), await joined()];
  await from.save(job("a", "Mill house"), job("b", "Barn"));
  const text = await textOf(from);
  expect(await to.storage.readUnsentFile(text.slice(0, -40))).toEqual({ outcome: "damaged" });
  const contents = contentsOf(text);
  for (const name of ["change_id", "kind", "record_id", "fields", "seen", "device_time", "schema", "number"]) {
    const cut = contents.changes.map((change, index) => (index === 1 ? { ...change, [name]: undefined } : change));
    expect(await to.storage.readUnsentFile(JSON.stringify({ ...contents, changes: cut }))).toEqual({ outcome: "damaged" });
  }
  const newer = contents.changes.map((change) => ({ ...change, schema: 99 }));
  expect(await to.storage.readUnsentFile(JSON.stringify({ ...contents, changes: newer }))).toEqual({ outcome: "newer_version" });
  expect((await to.storage.waiting(9)).length).toBe(0);
});

test.each([1, 2, 3, 4, 5, 6])("whatever waits comes whole through the file, in its order, into a queue of its own (seed %i)", async (seed) => {
  const random = randomFrom(seed);
  const [from, to] = [await joined(), await joined()];
  const count = Math.floor(random() * 12);
  for (let n = 0; n < count; n++) await from.save(job(`job-${Math.floor(random() * 4)}`, { note: textFrom(random) }));
  for (let n = 0; n < Math.floor(random() * 5); n++) await to.save(job(`mine-${n}`, "Mine"));
  const before = await to.storage.waiting(99);
  expect(await to.storage.readUnsentFile(await textOf(from))).toEqual({ outcome: "read", count });
  const [sent, waiting] = [await from.storage.waiting(99), await to.storage.waiting(99)];
  expect(waiting.slice(0, before.length)).toEqual(before);
  const brought = waiting.slice(before.length);
  expect(brought.map(({ change_id, kind, record_id, fields }) => ({ change_id, kind, record_id, fields }))).toEqual(
    sent.map(({ change_id, kind, record_id, fields }) => ({ change_id, kind, record_id, fields })),
  );
  expect(waiting.map((change) => change.number)).toEqual(waiting.map((_, index) => index + 1));
  for (const phone of random() < 0.5 ? [from, to] : [to, from]) await phone.sync();
  expect(office.log).toHaveLength(count + before.length);
});

/** Any letters that a person or a keyboard may leave in a note. */
function textFrom(random: () => number): string {
  const letters = ["a", "é", "\"", "\\", "\n", "½", "界", "🧱", "\u2028", " "];
  return Array.from({ length: Math.floor(random() * 9) }, () => letters[Math.floor(random() * letters.length)]).join("");
}
