import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { Storage } from "../../src/storage";
import { NoReply, PhotoService, PhotoShelf } from "../../src/sync";
import type { Bytes, Edit, OwnPhoto } from "../../src/wire";
import { job } from "../sync/phone";
import { emptyDisk, fillDisk } from "./full_disk";

const BYTES: Bytes = new Uint8Array(2000).fill(7);
const PHOTO: OwnPhoto = { hash: "own", media_type: "image/jpeg", width: 10, height: 10, bytes: BYTES, thumbnail: BYTES.subarray(0, 9) };
const EDIT: Edit<"photo"> = { kind: "photo", id: "p", fields: { hash: "own", size: 2000 } };
let storage: Storage;

beforeEach(async () => {
  storage = new Storage(`full-${crypto.randomUUID()}`);
  await storage.load();
});
afterEach(() => {
  emptyDisk(storage.name);
  storage.close();
});

test("a photo that does not fit is said to be too much, and neither it nor its record nor anything else changes", async () => {
  await storage.write([job("a", "Mill house")], { undo: [] });
  fillDisk(storage.name, (store) => store === "pictures");
  await expect(storage.write([EDIT], { undo: [], photo: PHOTO })).rejects.toMatchObject({ reason: "full" });
  expect(await storage.photos.unsent()).toEqual([]);
  expect(await storage.photos.thumbnail("own")).toBeNull();
  expect((await storage.load()).rows.map(({ id }) => id)).toEqual(["a"]);
  await storage.write([job("b", "Barn")], { undo: [] });
  expect((await storage.waiting(9)).map(({ record_id }) => record_id)).toEqual(["a", "b"]);
});

test("pictures of the office make room for a photo, and for a reading; a photo that waits does not", async () => {
  await storage.photos.keepPicture("theirs", BYTES);
  let left = 1;
  fillDisk(storage.name, (store) => store === "pictures" && left-- > 0);
  await storage.write([EDIT], { undo: [], photo: PHOTO });
  expect(await storage.photos.picture("theirs")).toBeNull();
  left = 2;
  fillDisk(storage.name, (store) => store === "changes" && left-- > 0);
  await storage.write([job("b", "Barn")], { undo: [] });
  expect((await storage.photos.unsent()).map(({ hash }) => hash)).toEqual(["own"]);
  expect(await storage.photos.picture("own")).toEqual(BYTES);
});

test("a picture of the office that does not fit is shown all the same", async () => {
  const service = new PhotoService(() => Promise.resolve(new Response(BYTES)));
  fillDisk(storage.name);
  expect(await new PhotoShelf(storage.photos, service).picture("theirs")).toEqual(BYTES);
  emptyDisk(storage.name);
  expect(await storage.photos.picture("theirs")).toBeNull();
});

test("without the office a picture that is not here is simply not there yet", async () => {
  const service = new PhotoService(() => Promise.reject(new NoReply()));
  expect(await new PhotoShelf(storage.photos, service).thumbnail("theirs")).toBeNull();
});
