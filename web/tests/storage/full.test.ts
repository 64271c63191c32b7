import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { OfficeDouble } from "../sync/office_double";
import { job, Phone } from "../sync/phone";
import { emptyDisk, fillDisk } from "./full_disk";

const STORY = { kind: "job", id: "a", entries: [], at: "2026-05-04T08:30:00Z" } as const;
let office: OfficeDouble;
let phone: Phone;

beforeEach(async () => {
  office = new OfficeDouble();
  phone = new Phone(office);
  await phone.join();
});
afterEach(() => {
  emptyDisk(phone.name);
  phone.close();
});

test.each([
  ["a change", () => phone.save(job("a", "Mill house"))],
  ["a draft", () => phone.storage.saveDraft("reading", "3 5/16")],
  ["the list of people", () => phone.storage.keepPeople({ list: [], at: "2026-05-04T08:30:00Z" })],
  ["a story", () => phone.storage.keepHistory(STORY)],
  ["a file", async () => phone.storage.readUnsentFile((await phone.storage.unsentFile()).text)],
])("%s that does not fit is said to be too much, and nothing of it is stored", async (_what, write) => {
  fillDisk(phone.name);
  await expect(write()).rejects.toMatchObject({ reason: "full" });
  emptyDisk(phone.name);
  expect((await phone.storage.load()).rows).toEqual([]);
  expect((await phone.storage.load()).drafts).toEqual([]);
  expect((await phone.storage.account()).nextNumber).toBe(1);
});

test("news that do not fit end the round and say so; what waits is sent all the same, and the next round has it all", async () => {
  const other = new Phone(office);
  await other.join();
  await other.save(job("theirs", "Barn"));
  await other.sync();
  await phone.save(job("mine", "Mill house"));
  fillDisk(phone.name, (store) => store === "records");
  phone.line.asked.length = 0;
  await phone.sync();
  expect(phone.phase).toBe("full");
  expect(phone.line.asked).toEqual(["/api/push", "/api/pull"]);
  expect(office.fieldsOf("mine")).toEqual({ name: "Mill house" });
  expect((await phone.row("mine"))?.fields).toEqual({ name: "Mill house" });
  emptyDisk(phone.name);
  await phone.sync();
  expect(phone.phase).toBe("idle");
  expect(Object.keys(await phone.shown())).toEqual(["mine", "theirs"]);
  other.close();
});

test("where the phone is full, kept stories make room for a change", async () => {
  await phone.storage.keepHistory(STORY);
  let left = 2; // one try before anything is dropped, one after the pictures are
  fillDisk(phone.name, (store) => store === "changes" && left-- > 0);
  await phone.save(job("a", "Mill house"));
  expect(await phone.storage.historyKept("job", "a")).toBeUndefined();
  expect(phone.standing?.waiting).toBe(1);
});

test("changes that wait are never what makes room", async () => {
  await phone.save(job("a", "Mill house"));
  fillDisk(phone.name);
  await expect(phone.save(job("b", "Barn"))).rejects.toMatchObject({ reason: "full" });
  emptyDisk(phone.name);
  await phone.sync();
  expect(office.records.map((record) => record.id)).toEqual(["a"]);
});
