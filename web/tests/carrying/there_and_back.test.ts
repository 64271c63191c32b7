/**
 * Random jobs, worked on by three phones that do not always know of each other, from a phone's file into an empty phone and
 * from there into an empty service: nothing of them is lost, neither who and when nor what waits for a decision.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeJobFile, readJobFile, type JobContents } from "../../src/carrying";
import type { JobOut } from "../../src/storage";
import type { Edit, Kind, OwnPhoto, Row } from "../../src/wire";
import { randomFrom } from "../sync/random";
import { hasService, RealOffice, START_MS, type RealPhone } from "../sync/real_office";

const HASH = "0".repeat(64);
const JPEG = [0xff, 0xd8, 0xff]; // how one begins
const CLOCKS_AGREE_MS = 5_000;
const AT = "2026-05-04T08:30:00Z";

type Random = () => number;
type Fields = Readonly<Record<string, unknown>>;

const NEW: Partial<Record<Kind, (n: number) => Fields>> = {
  reading: (n) => ({ down: 1000 + n, at: [n, 0] }),
  gap: (n) => ({ from: [0, 0], to: [2000, 0], gap: n }),
  height_line: (n) => ({ heights: [0, n, 0.5] }),
  temperature_log: (n) => ({ start: AT, seconds: [0, 600], celsius: [n, 19] }),
  sign_off: () => ({ at: AT, by: "Ana", engine: "1", engine_hash: HASH, inputs_hash: HASH, copy: "{}" }),
  entry: (n) => ({ what: "milestone", at: AT, code: "walk", by: `P${n}`, how: "scratch" }),
  batch: () => ({ mixed_at: AT }),
};
const EDITS: Partial<Record<Kind, (n: number) => Fields>> = {
  job: (n) => ({ name: `job ${n}`, ...(n % 2 === 0 ? { note: `note ${n}` } : {}) }),
  room: (n) => ({ name: `room ${n}`, "bed.minimum_thickness": 20 + n, "bed.top": n % 3 === 0 ? null : { kind: "level", height: n } }),
  gap: (n) => ({ gap: n }),
  height_line: (n) => ({ spacing: 300 + n }),
  sign_off: (n) => ({ note: `${n}` }),
  entry: (n) => ({ text: `${n}` }),
  forecast_day: (n) => ({ low: n }),
};

function pick<T>(random: Random, items: readonly T[]): T {
  const item = items[Math.floor(random() * items.length)];
  if (item === undefined) throw new Error("There is nothing to pick from.");
  return item;
}

function edit(kind: Kind, id: string, fields: Fields): Edit {
  return { kind, id, fields };
}

async function step(phone: RealPhone, job: string, random: Random): Promise<void> {
  const rows = (await phone.rows()).filter((row) => row.id === job || "room_id" in row.fields || ("job_id" in row.fields && row.fields.job_id === job));
  const n = Math.floor(random() * 9);
  const rooms = rows.filter(({ kind }) => kind === "room");
  const room = pick(random, rooms).id;
  const what = random();
  if (what < 0.3) {
    const kind = pick(random, Object.keys(NEW) as Kind[]);
    await phone.save(edit(kind, uuidv7(), { room_id: room, ...NEW[kind]?.(n) }));
  } else if (what < 0.4) await phone.save(edit("forecast_day", uuidv7(), { job_id: job, low: n, high: 20, low_at: AT, high_at: AT }));
  else if (what < 0.5) await addPhoto(phone, room, n);
  else {
    const { kind, id } = pick<Row>(random, rows);
    const fields = random() < 0.15 ? { deleted: random() < 0.6 } : (EDITS[kind]?.(n) ?? { deleted: false });
    await phone.save(edit(kind, id, fields));
  }
}

async function addPhoto(phone: RealPhone, room: string, n: number): Promise<void> {
  const bytes = Uint8Array.from({ length: 500 + n }, (_, index) => JPEG[index] ?? (index * n) % 256);
  const [hash, size] = [bytesToHex(sha256(bytes)), { width: 8, height: 6 }];
  const photo: OwnPhoto = { hash, media_type: "image/jpeg", ...size, bytes, thumbnail: bytes.slice(0, 9) };
  const fields = { room_id: room, hash, media_type: "image/jpeg", size: bytes.length, ...size };
  await phone.storage.write([edit("photo", uuidv7(), fields)], { undo: [], photo });
}

async function outOf(phone: RealPhone, job: string): Promise<JobOut> {
  const out = await phone.storage.jobOut(job, "test");
  if (out === null) throw new Error("The job is not on this phone.");
  return out;
}

async function intoAndOut({ contents, photos }: JobOut, phone: RealPhone) {
  return phone.storage.takeJob(await readJobFile(makeJobFile(contents, photos)));
}

/** Moments are told in two writings. */
function historyIn({ history }: JobContents): unknown {
  return history.map((change) => ({ ...change, at: new Date(change.at).toISOString(), knew: [...change.knew].sort() }));
}

/** What the phone itself had not sent is dated anew by the office, whose clock it had measured some moments before. */
function withoutMoments({ history }: JobContents): unknown {
  return history.map(({ at: _at, knew, ...change }) => ({ ...change, knew: [...knew].sort() }));
}

function largestDifference({ history }: JobContents, { history: other }: JobContents): number {
  return Math.max(...history.map(({ at }, index) => Math.abs(Date.parse(at) - Date.parse(other[index]?.at ?? ""))));
}

function recordsIn({ records }: JobContents): unknown {
  return [...records].sort((a, b) => (a.id < b.id ? -1 : 1));
}

async function conflictsOf(phone: RealPhone, out: JobOut): Promise<unknown> {
  const ids = new Set(out.contents.records.map(({ id }) => id));
  const rows = (await phone.rows()).filter(({ id }) => ids.has(id)).sort((a, b) => (a.id < b.id ? -1 : 1));
  return rows.map(({ id, conflicts }) => [id, Object.entries(conflicts).sort().map(([field, lost]) => [field, lost.map(({ value, person, device_id, at }) => [value, person, device_id, Date.parse(at)])])]);
}

async function worked(phones: readonly RealPhone[], random: Random): Promise<string> {
  const job = uuidv7();
  const [first] = phones as [RealPhone];
  await first.save(edit("job", job, { name: "Mill house" }), edit("room", uuidv7(), { job_id: job, name: "Hall" }));
  await first.storage.noteOpened(job);
  await addPhoto(first, pick(random, (await first.rows()).filter(({ kind, fields }) => kind === "room" && "job_id" in fields && fields.job_id === job)).id, 7);
  for (const phone of phones) await phone.sync();
  for (let count = 0; count < 24; count += 1) {
    const phone = pick(random, phones);
    await step(phone, job, random);
    if (random() < 0.3) await phone.sync();
  }
  for (const phone of [...phones, ...phones]) await phone.sync();
  for (let count = 0; count < 3; count += 1) await step(first, job, random);
  return job;
}

describe.skipIf(!hasService)("against the service itself", () => {
  const [office, empty] = [new RealOffice(), new RealOffice()];
  let phones: readonly RealPhone[];
  let undecided = 0;
  beforeAll(async () => {
    await Promise.all([office.start(), empty.start()]);
    phones = [await office.joined("Ana"), await office.joined("Ben"), await office.joined("Cal")];
  }, 2 * START_MS);
  afterAll(() => {
    office.stop();
    empty.stop();
  });

  test.each([1, 2, 3])("a job goes by file to a phone that never joined, and from there to another service (seed %i)", { timeout: START_MS }, async (seed) => {
    const random = randomFrom(seed);
    const job = await worked(phones, random);
    const [from, to] = [phones[0] as RealPhone, empty.phone()];
    const out = await outOf(from, job);
    expect(out.contents.complete).toEqual({ history: true, photos: out.contents.photos.map(({ hash }) => hash).filter((hash) => !out.photos.has(hash)) });
    expect(out.photos.size).toBeGreaterThan(0);
    const taken = await intoAndOut(out, to);
    expect([taken.changes, taken.known, taken.photos]).toEqual([out.contents.history.length, 0, out.photos.size]);
    const there = await outOf(to, job);
    expect(recordsIn(there.contents)).toEqual(recordsIn(out.contents));
    expect(there.contents.history).toEqual(out.contents.history);
    expect([...there.photos]).toEqual([...out.photos]);
    expect(await intoAndOut(out, to)).toMatchObject({ changes: 0, photos: 0 });
    await joinedTo(to, empty);
    await to.storage.noteOpened(job);
    await to.sync();
    await from.sync();
    expect(to.standing?.refused).toEqual([]);
    const [here, elsewhere] = [await outOf(from, job), await outOf(to, job)];
    expect(historyIn(elsewhere.contents)).toEqual(historyIn(out.contents));
    expect(withoutMoments(here.contents)).toEqual(withoutMoments(out.contents));
    expect(largestDifference(here.contents, out.contents)).toBeLessThan(CLOCKS_AGREE_MS);
    expect(recordsIn(elsewhere.contents)).toEqual(recordsIn(here.contents));
    expect(await conflictsOf(to, here)).toEqual(await conflictsOf(from, here));
    undecided += (await from.rows()).filter(({ conflicts }) => Object.keys(conflicts).length > 0).length;
    expect(await intoAndOut(elsewhere, from)).toMatchObject({ changes: 0, photos: 0 });
  });

  test("some of those jobs had values that wait for a decision", () => {
    expect(undecided).toBeGreaterThan(0);
  });

  test("a phone that has not fetched the history says so, and what stands goes all the same", { timeout: START_MS }, async () => {
    const job = await worked(phones, randomFrom(9));
    const [other, to] = [phones[1] as RealPhone, empty.phone()];
    const out = await outOf(other, job);
    expect(out.contents.complete.history).toBe(false);
    await intoAndOut(out, to);
    expect(recordsIn((await outOf(to, job)).contents)).toEqual(recordsIn(out.contents));
    expect(await intoAndOut(await outOf(other, job), to)).toMatchObject({ changes: 0 });
  });
});

async function joinedTo(phone: RealPhone, office: RealOffice): Promise<void> {
  const boss = office.phones.find(({ isBoss }) => isBoss);
  phone.isBoss = boss === undefined;
  const outcome = await phone.join(boss ? await boss.codeFor("Dan", "foreman") : office.code, "Dan");
  if (outcome.outcome !== "joined") throw new Error(`Dan did not join: ${outcome.outcome}`);
}
