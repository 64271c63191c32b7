/** A job file that a phone has no room for leaves nothing behind; a database of the version before opens with all it held. */
import "fake-indexeddb/auto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Dexie } from "dexie";
import { uuidv7 } from "uuidv7";
import { afterEach, beforeEach, expect, test } from "vitest";
import { makeJobFile, readJobFile, type JobFileRead } from "../../src/carrying";
import { ABOUT_TEXT } from "../../src/carrying/about";
import { DEEPEST } from "../../src/carrying/depth";
import { Storage } from "../../src/storage";
import type { Edit, Kind } from "../../src/wire";
import { emptyDisk, fillDisk } from "../storage/full_disk";

const OTHER = "019df2e4-d900-7000-8000-000000000009";
const [JOB, ROOM, DEVICE] = ["019df2e4-d900-7000-8000-000000000001", "019df2e4-d900-7000-8000-000000000002", "019df2e4-d900-7000-8000-000000000003"];
let storage: Storage;

beforeEach(() => (storage = new Storage(`carrying-${crypto.randomUUID()}`)));
afterEach(() => {
  emptyDisk(storage.name);
  storage.close();
});

function edit(kind: Kind, id: string, fields: Readonly<Record<string, unknown>>): Edit {
  return { kind, id, fields };
}

async function aJob(): Promise<JobFileRead> {
  const other = new Storage(`other-${crypto.randomUUID()}`);
  await other.write(
    [
      edit("job", JOB, { name: "Mill house" }),
      edit("room", ROOM, { job_id: JOB, name: "Hall" }),
    ],
    { undo: [] },
  );
  const out = await other.jobOut(JOB, "test");
  other.close();
  if (out === null) throw new Error("The job is not here.");
  return readJobFile(makeJobFile(out.contents, new Map()));
}

test.each(["changes", "pictures", "photos"])("a file that does not fit into %s leaves nothing, and comes whole once there is room", async (store) => {
  const file = await aJob();
  const withPicture = { ...file, photos: new Map([["a".repeat(64), new Uint8Array(9)]]) };
  fillDisk(storage.name, (name) => name === store);
  await expect(storage.takeJob(withPicture)).rejects.toMatchObject({ reason: "full" });
  emptyDisk(storage.name);
  expect((await storage.load()).rows).toEqual([]);
  expect(await storage.photos.unsent()).toEqual([]);
  expect((await storage.account()).nextNumber).toBe(1);
  expect(await storage.takeJob(withPicture)).toMatchObject({ changes: 2, photos: 1, known: 0 });
});

/** The file's job and room as another job, whose room has the id that `room` says. */
function asAnotherJob({ contents, photos }: JobFileRead, room: string): JobFileRead {
  const [job, inside] = contents.history;
  if (job === undefined || inside === undefined) throw new Error("The file is empty.");
  const history = [
    { ...job, change_id: uuidv7(), record_id: OTHER },
    { ...inside, change_id: uuidv7(), record_id: room, fields: { ...inside.fields, job_id: OTHER, name: "Mine now" } },
  ];
  return { photos, unknown: [], contents: { ...contents, job: OTHER, history } };
}

test("a record of a job that is here cannot be taken into another by a file", async () => {
  const file = await aJob();
  await storage.takeJob(file);
  const before = [await storage.load(), await storage.account()];
  await expect(storage.takeJob(asAnotherJob(file, ROOM))).rejects.toMatchObject({ name: "JobFileError", fault: "refused", about: `room ${ROOM} job_id` });
  expect([await storage.load(), await storage.account()]).toEqual(before);
  expect(await storage.takeJob(asAnotherJob(file, uuidv7()))).toMatchObject({ changes: 2 });
});

test("another change under an id that is known here is not passed over as if it were the same", async () => {
  const file = await aJob();
  await storage.takeJob(file);
  const history = file.contents.history.map((change) => (change.kind === "room" ? { ...change, fields: { ...change.fields, name: "Cellar" } } : change));
  await expect(storage.takeJob({ ...file, contents: { ...file.contents, history } })).rejects.toMatchObject({ fault: "refused", about: `room ${ROOM} change_id` });
  expect(await storage.takeJob(file)).toMatchObject({ changes: 0, known: 2 });
});

test("a reading that is here cannot be edited by a file", async () => {
  const file = await aJob();
  await storage.takeJob(file);
  const reading = { room_id: ROOM, down: 1000, at: [0, 0] };
  await storage.write([edit("reading", OTHER, reading)], { undo: [] });
  const [, room] = file.contents.history;
  if (room === undefined) throw new Error("The file is empty.");
  const more = (fields: typeof reading) => ({ ...room, change_id: uuidv7(), kind: "reading" as const, record_id: OTHER, fields });
  const withMore = (fields: typeof reading) => storage.takeJob({ ...file, contents: { ...file.contents, history: [...file.contents.history, more(fields)] } });
  await expect(withMore({ ...reading, down: 900 })).rejects.toMatchObject({ fault: "refused", about: `reading ${OTHER} down` });
  expect(await withMore(reading)).toMatchObject({ changes: 1 });
});

test("of two who did not know of each other the later edit stands, on a phone that never joined too", async () => {
  const file = await aJob();
  await storage.takeJob(file);
  await storage.write([edit("job", JOB, { note: "mine" })], { undo: [] });
  const [base] = file.contents.history;
  if (base === undefined) throw new Error("The file is empty.");
  const elsewhere = (at: string, note: string, n: number) => ({
    ...base, change_id: DEVICE.slice(0, -2) + String(n), at, fields: { note }, device: { id: DEVICE, name: null }, knew: [base.change_id],
  });
  const taken = async (...more: readonly ReturnType<typeof elsewhere>[]) => {
    await storage.takeJob({ ...file, contents: { ...file.contents, history: [...file.contents.history, ...more] } });
    return (await storage.load()).rows.find(({ id }) => id === JOB)?.fields;
  };
  expect(await taken(elsewhere("2026-01-01T08:00:00Z", "earlier", 50))).toMatchObject({ note: "mine" });
  expect(await taken(elsewhere(new Date(Date.now() + 60_000).toISOString(), "later", 51))).toMatchObject({ note: "later" });
});

test("a database of the version before opens with everything, and keeps histories from then on", async () => {
  const name = `fourth-${crypto.randomUUID()}`;
  const old = new Dexie(name);
  old.version(4).stores({
    records: "[kind+id]", held: "[kind+id]", changes: "change_id, number, acked, [kind+record_id]", refused: "change_id", meta: "key", drafts: "key",
    histories: "[kind+id], at", photos: "hash, unsent, [unsent+usedAt]", pictures: "hash, size",
  });
  await old.table("records").add({ kind: "job", id: JOB, fields: { name: "Barn" }, sequence: 3, view: 1, conflicts: {} });
  await old.table("meta").add({ key: "account", deviceId: DEVICE, nextNumber: 7, joined: true, cursor: 3, view: 1, database: "x" });
  await old.table("drafts").add({ key: "reading", text: "3 5/16" });
  old.close();
  const opened = new Storage(name);
  const { rows, drafts } = await opened.load();
  expect(rows.map(({ id, fields }) => [id, fields])).toEqual([[JOB, { name: "Barn" }]]);
  expect(drafts).toEqual([["reading", "3 5/16"]]);
  expect((await opened.account()).nextNumber).toBe(7);
  await opened.noteOpened(JOB);
  expect((await opened.pastsToFetch()).map(({ job_id, next }) => [job_id, next])).toEqual([[JOB, 0]]);
  opened.close();
});

test("phone and service write the same few lines into a file, and stop at the same depth", () => {
  const server = join(import.meta.dirname, "..", "..", "..", "server", "evenbed");
  expect(readFileSync(join(server, "jobfile", "about.py"), "utf8")).toContain(ABOUT_TEXT);
  const deepest = /^DEEPEST = (\d+)$/m.exec(readFileSync(join(server, "wire", "values.py"), "utf8"))?.[1];
  expect(DEEPEST).toBe(Number(deepest) + 5);
});
