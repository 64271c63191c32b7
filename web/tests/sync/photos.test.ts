import "fake-indexeddb/auto";
import { createHash } from "node:crypto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Storage } from "../../src/storage";
import { PhotoSender, PhotoService, PhotoShelf } from "../../src/sync";
import type { Bytes, Edit, OwnPhoto } from "../../src/wire";
import { PhotoOffice, type Fault } from "./photo_office";

let storage: Storage;
let office: PhotoOffice;
let sender: PhotoSender;

beforeEach(() => {
  storage = new Storage(`photos-${crypto.randomUUID()}`);
  office = new PhotoOffice();
  sender = newSender();
  sender.follow("idle");
});

afterEach(() => {
  sender.stop();
  storage.close();
});

function newSender(): PhotoSender {
  return new PhotoSender(storage.photos, new PhotoService(office.http), { isOnline: () => true, alone: (work) => work() });
}

/** Bytes that are no picture: the phone sends what it has made, and the office's judgement is told by the test. */
function photo(size: number, seed = 1): OwnPhoto {
  const bytes: Bytes = new Uint8Array(size).map((_, index) => (index * 31 * seed + (index >> 8)) % 251);
  const hash = createHash("sha256").update(bytes).digest("hex");
  return { hash, media_type: "image/jpeg", width: 10, height: 10, bytes, thumbnail: bytes.subarray(0, 10) };
}

async function take(one: OwnPhoto, isNamed = true): Promise<OwnPhoto> {
  const { hash, media_type, width, height } = one;
  const fields = { room_id: crypto.randomUUID(), hash, media_type, width, height, size: one.bytes.length };
  const edit: Edit<"photo"> = { kind: "photo", id: crypto.randomUUID(), fields };
  await storage.write([edit], { undo: [], photo: one });
  if (isNamed) office.named.set(hash, one.bytes.length);
  return one;
}

/** Byte for byte, at once: `toEqual` takes a third of a second for half a million of them. */
function expectSame(found: Uint8Array | undefined, bytes: Uint8Array): void {
  expect(found?.length).toBe(bytes.length);
  expect(Buffer.compare(found ?? new Uint8Array(), bytes)).toBe(0);
}

const unsent = async () => (await storage.photos.unsent()).map(({ hash }) => hash);

test("a photo and its record are kept together, and the photo is sent whole", async () => {
  const one = await take(photo(600_000));
  expect(await unsent()).toEqual([one.hash]);
  await sender.sendNow();
  expectSame(office.whole.get(one.hash), one.bytes);
  expect(await unsent()).toEqual([]);
  expect(office.parts).toBeGreaterThan(2);
});

test("a record that is not committed leaves no picture behind", async () => {
  const one = photo(1000);
  const impossible = { undo: [], photo: { ...one, thumbnail: (() => undefined) as unknown as Bytes } };
  const edit: Edit<"photo"> = { kind: "photo", id: "p", fields: { hash: one.hash } };
  await expect(storage.write([edit], impossible)).rejects.toThrow();
  expect(await storage.photos.picture(one.hash)).toBeNull();
  expect(await storage.waiting(10)).toEqual([]);
});

const FAULTS: readonly Fault[] = ["none", "none", "none", "request_lost", "reply_lost", "busy"];

test.each([1, 2, 3, 4, 5, 6, 7, 8])("whatever the line loses, every byte arrives once and in order (%i)", async (seed) => {
  vi.useFakeTimers({ toFake: ["setTimeout"] });
  const taken = [await take(photo(300_000, seed)), await take(photo(70_000, seed + 100))];
  office.faults = Array.from({ length: 6 }, (_, index) => FAULTS[(index * 7 + seed * 13 + (index * index) % 5) % 6] ?? "none");
  void sender.sendNow();
  for (let tries = 0; tries < 60 && (await unsent()).length > 0; tries += 1) await vi.advanceTimersByTimeAsync(300_000);
  vi.useRealTimers();
  expect(await unsent()).toEqual([]);
  expect(office.faults).toEqual([]);
  for (const one of taken) expectSame(office.whole.get(one.hash), one.bytes);
  expect(office.bytesTaken).toBe(370_000);
});

test("after the app was closed in the middle it goes on from where the office stands", async () => {
  const one = await take(photo(400_000));
  office.onPart = () => {
    if (office.parts === 1) sender.stop();
  };
  await sender.sendNow();
  expect(office.parts).toBe(2);
  expect(office.whole.size).toBe(0);
  office.onPart = () => undefined;
  const reopened = newSender();
  reopened.follow("idle");
  await reopened.sendNow();
  expectSame(office.whole.get(one.hash), one.bytes);
  expect(office.bytesTaken).toBe(400_000);
});

test("while changes are under way no further part is sent, and none at all from a phone that cannot send", async () => {
  await take(photo(400_000));
  let inFlight = 0;
  office.onPart = () => {
    if (office.parts === 1) sender.follow("syncing");
    inFlight = office.parts;
  };
  const sending = sender.sendNow();
  await vi.waitFor(() => expect(office.parts).toBe(2));
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect([office.parts, inFlight]).toEqual([2, 1]);
  sender.follow("only_looks");
  await sending;
  expect(office.parts).toBe(2);
  sender.follow("idle");
  await vi.waitFor(async () => expect(await unsent()).toEqual([]));
});

test("a photo that the office does not take stays, says why, and keeps no other from going", async () => {
  const bad = await take(photo(1000));
  const good = await take(photo(2000, 2));
  office.unwanted.set(bad.hash, "photo_has_position");
  await sender.sendNow();
  expect(await storage.photos.unsent()).toEqual([{ hash: bad.hash, problem: "photo_has_position" }]);
  expect(office.whole.has(good.hash)).toBe(true);
  office.unwanted.clear();
  await storage.photos.sendAgain(bad.hash);
  await sender.sendNow();
  expect(await unsent()).toEqual([]);
});

test("a photo whose record the office does not have waits until it has, and keeps no other from going", async () => {
  const early = await take(photo(1000), false);
  const good = await take(photo(2000, 2));
  await sender.sendNow();
  expect(await unsent()).toEqual([early.hash]);
  expect(office.whole.has(good.hash)).toBe(true);
  office.named.set(early.hash, 1000);
  await sender.sendNow();
  expect(await unsent()).toEqual([]);
});

test.each([401, 404, 413, 415, 422])("a %i of something in between is no judgement of a photo", async (status) => {
  const one = await take(photo(1000));
  office.broken = status;
  await sender.sendNow();
  expect(await storage.photos.unsent()).toEqual([{ hash: one.hash, problem: null }]);
  office.broken = null;
  await sender.sendNow();
  expect(await unsent()).toEqual([]);
});

test("the photos of a person who may only look wait, without trying again by themselves, until they may send", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout"] });
  await take(photo(1000));
  office.answersAll = 403;
  await sender.sendNow();
  const { asked } = office;
  await vi.advanceTimersByTimeAsync(3_600_000);
  vi.useRealTimers();
  expect([asked > 0, office.asked]).toEqual([true, asked]);
  expect((await storage.photos.unsent()).map(({ problem }) => problem)).toEqual([null]);
  office.answersAll = null;
  sender.follow("idle");
  await vi.waitFor(async () => expect(await unsent()).toEqual([]));
});

test("a photo that the office fails at keeps no other from going", async () => {
  const bad = await take(photo(1000));
  const good = await take(photo(2000, 2));
  office.failing.add(bad.hash);
  await sender.sendNow();
  expect(office.whole.has(good.hash)).toBe(true);
  expect(await unsent()).toEqual([bad.hash]);
  office.failing.clear();
  await sender.sendNow();
  expect(await unsent()).toEqual([]);
});

test("wrong bytes that another phone had begun with are let go of, and the photo goes again from its start", async () => {
  const one = await take(photo(100_000));
  office.here.set(one.hash, new Uint8Array(500).fill(7));
  await sender.sendNow();
  expectSame(office.whole.get(one.hash), one.bytes);
});

test("what waits is never let go of; pictures of the office are, the ones looked at last the longest", async () => {
  const { photos } = storage;
  Object.assign(photos.most, { bytes: 2500, thumbnails: 3 });
  const own = await take(photo(5000));
  for (const [index, hash] of ["a", "b", "c"].entries()) {
    await photos.keepPicture(hash, photo(1000, index + 5).bytes);
    await new Promise((resolve) => setTimeout(resolve, 2));
  }
  expect(await photos.picture("a")).toBeNull();
  expect((await photos.picture("b"))?.length).toBe(1000);
  await new Promise((resolve) => setTimeout(resolve, 2));
  await photos.keepPicture("d", photo(1000, 9).bytes);
  expect((await photos.picture("b"))?.length).toBe(1000);
  expect(await photos.picture("c")).toBeNull();
  expect((await photos.picture(own.hash))?.length).toBe(5000);
});

test("pictures of the office that no record names any more are forgotten, own unsent ones are not", async () => {
  const own = await take(photo(1000));
  await storage.photos.keepPicture("theirs", photo(500, 3).bytes);
  await storage.photos.tidy();
  expect(await storage.photos.picture("theirs")).toBeNull();
  expect(await storage.photos.picture(own.hash)).not.toBeNull();
});

test("after the office was restored every picture that is here is offered again", async () => {
  const one = await take(photo(1000));
  await storage.adoptDatabase("first");
  await sender.sendNow();
  expect(await unsent()).toEqual([]);
  await storage.adoptDatabase("second");
  expect(await unsent()).toEqual([one.hash]);
});

test("after the office was restored a picture that no record here names can still make room", async () => {
  await storage.adoptDatabase("first");
  await storage.photos.keepPicture("theirs", photo(500, 3).bytes);
  await storage.adoptDatabase("second");
  expect(await unsent()).toEqual([]);
  await storage.photos.tidy();
  expect(await storage.photos.picture("theirs")).toBeNull();
});

test("a picture for the screen comes from the phone, else from the office, and is asked for once", async () => {
  const shelf = new PhotoShelf(storage.photos, new PhotoService(office.http));
  expect(await shelf.picture("a")).toBeNull();
  const { bytes } = photo(1000);
  office.whole.set("a", bytes);
  expect(await Promise.all([shelf.picture("a"), shelf.picture("a")])).toEqual([bytes, bytes]);
  office.whole.clear();
  expect(await shelf.picture("a")).toEqual(bytes);
  expect(await shelf.thumbnail("b")).toBeNull();
});
