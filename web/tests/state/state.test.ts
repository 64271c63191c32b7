import { resolveObjectURL } from "node:buffer";
import { effect } from "@preact/signals";
import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import type { Edit } from "../../src/wire";
import { Outside } from "./whole_phone";

const SQUARE = { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] } as const;
let outside: Outside;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
});
afterEach(() => outside.storage.close());

async function newRoom(): Promise<string> {
  const jobId = await state.createJob({ name: "Mill house" });
  return state.createRoom(jobId, { name: "Hall", outline: SQUARE });
}

function downs(roomId: string): readonly (number | null | undefined)[] {
  return state.readingsOf(roomId).value.map((row) => row.fields.down);
}

test("an action returns with its record on show and in the database", async () => {
  const roomId = await newRoom();
  expect(state.roomOf(roomId)?.fields.name).toBe("Hall");
  expect((await outside.storage.load()).rows.map((row) => row.kind)).toEqual(["job", "room"]);
});

test("rooms belong to their job, readings to their room, oldest first", async () => {
  const roomId = await newRoom();
  for (const down of [30, 10, 20]) await state.addReading(roomId, { down, at: [down, 0] });
  const jobId = state.roomOf(roomId)?.fields.job_id ?? "";
  expect(state.roomsOf(jobId).value.map((row) => row.id)).toEqual([roomId]);
  expect(state.roomsOf("another job").value).toEqual([]);
  expect(downs(roomId)).toEqual([30, 10, 20]);
});

test("a corrected reading is out, its correction in, at the same place; undo turns that round", async () => {
  const roomId = await newRoom();
  const wrong = await state.addReading(roomId, { down: 300, at: [10, 20], setup: "s1", typed: "300" });
  await state.correctReading(wrong, { down: 30, typed: "30" });
  expect(state.readingsOf(roomId).value.map((row) => row.fields)).toMatchObject([
    { down: 30, at: [10, 20], setup: "s1", typed: "30", supersedes: wrong },
  ]);
  await state.undo();
  expect(downs(roomId)).toEqual([300]);
});

test("undo takes back edits, deletions and creations, newest first, also after the app was closed", async () => {
  const roomId = await newRoom();
  await state.editRoom(roomId, { name: "Kitchen", "mix.sand": 4 });
  await state.deleteRecord("room", roomId);
  const jobId = state.roomOf(roomId)?.fields.job_id ?? "";
  expect(state.roomsOf(jobId).value).toEqual([]);
  await outside.reopen();
  expect(await state.undo()).toBe(true);
  expect(state.roomsOf(jobId).value.map((row) => row.fields.name)).toEqual(["Kitchen"]);
  await state.undo();
  expect(state.roomOf(roomId)?.fields).toMatchObject({ name: "Hall", "mix.sand": null });
  await state.undo();
  expect(state.roomsOf(jobId).value).toEqual([]);
  await state.undo();
  expect(state.jobs.value.map((row) => row.id)).not.toContain(jobId);
  expect(state.canUndo.value).toBe(false);
  expect(await state.undo()).toBe(false);
});

test("a draft holds every key press across a restart, and goes with the reading it became", async () => {
  const roomId = await newRoom();
  await state.setDraft(`reading/${roomId}`, "3 5/1");
  await outside.reopen();
  expect(state.getDraft(`reading/${roomId}`)).toBe("3 5/1");
  await state.addReading(roomId, { down: 84, at: [0, 0] }, { draft: `reading/${roomId}` });
  expect(state.getDraft(`reading/${roomId}`)).toBeUndefined();
  expect((await outside.storage.load()).drafts).toEqual([]);
});

test("a failed action keeps the draft, the undo steps and what is shown", async () => {
  const roomId = await newRoom();
  await state.setDraft("name", "Kitchen");
  const unstorable = (() => "no") as unknown as string;
  await expect(state.editRoom(roomId, { name: unstorable }, { draft: "name" })).rejects.toThrow();
  expect(state.getDraft("name")).toBe("Kitchen");
  expect(state.roomOf(roomId)?.fields.name).toBe("Hall");
  await state.undo();
  expect(state.roomOf(roomId)?.fields.deleted).toBe(true);
});

test("the document nests the dotted choices, drops emptied ones, and knows only readings that count", async () => {
  const roomId = await newRoom();
  await state.editRoom(roomId, {
    "bed.top": { kind: "level", height: null },
    "bed.covering.bond_thickness": 5,
    "bed.minimum_thickness": 30,
    "filling.mixer": [500, 300],
    "curing.assumed": 15,
    openings: [{ id: "d", wall: 0, from: 100, to: 900 }],
  });
  await state.editRoom(roomId, { "bed.minimum_thickness": null });
  const wrong = await state.addReading(roomId, { down: 1, at: [0, 0] });
  const right = await state.correctReading(wrong, { down: 2 });
  const mark = await state.addReading(roomId, { down: 3, mark: "m" });
  await state.deleteRecord("reading", await state.addReading(roomId, { down: 4, at: [1, 1] }));
  expect(state.documentFromRoom(roomId)).toEqual({
    document: 1,
    outline: SQUARE,
    openings: [{ id: "d", wall: 0, from: 100, to: 900 }],
    bed: { top: { kind: "level", height: null }, covering: { bond_thickness: 5 } },
    curing: { assumed: 15 },
    filling: { mixer: [500, 300] },
    readings: [
      { id: right, down: 2, at: [0, 0], taken_at: expect.any(String) as unknown },
      { id: mark, down: 3, mark: "m", taken_at: expect.any(String) as unknown },
    ],
    placements: [],
    climate: [],
  });
});

test("climate goes in by time, measured before forecast, whatever the offsets are written like", async () => {
  const roomId = await newRoom();
  const rows = [
    { at: "2026-05-04T12:00:00Z", bed: 3, forecast: true },
    { at: "2026-05-04T09:00:00-05:00", bed: 2 },
    { at: "2026-05-04T10:00:00Z", bed: 1 },
  ];
  for (const row of rows) await state.addClimate(roomId, row);
  const beds = state.documentFromRoom(roomId)?.climate?.map((row) => row["bed"]);
  expect(beds).toEqual([1, 2, 3]);
});

test("a whole picture is shown as what its record says it is", async () => {
  const hash = "a".repeat(64);
  const taken: Edit<"photo"> = { kind: "photo", id: "p", fields: { hash, media_type: "image/webp" } };
  await outside.storage.write([taken], { undo: [] });
  outside.picture = () => Promise.resolve(new Uint8Array([1, 2, 3]));
  const stop = state.pictureOf(hash).subscribe(() => undefined);
  await expect.poll(() => state.pictureOf(hash).value).not.toBeNull();
  expect(resolveObjectURL(state.pictureOf(hash).peek() ?? "")?.type).toBe("image/webp");
  stop();
});

test("a room without an outline has no document", async () => {
  const jobId = await state.createJob({ name: "Mill house" });
  const roomId = await state.createRoom(jobId, { name: "Hall" });
  expect(state.documentFromRoom(roomId)).toBeNull();
  expect(state.documentFromRoom("nowhere")).toBeNull();
});

test("a watched plan is asked for, shown, and asked for again after each change", async () => {
  const roomId = await newRoom();
  const seen: string[] = [];
  const stop = effect(() => void seen.push(state.planOf(roomId).value.status));
  outside.asked[0]?.answer(JSON.stringify({ bed: { volume: 1 } }));
  await expect.poll(() => state.planOf(roomId).value.plan?.bed.volume).toBe(1);
  await expect.poll(() => outside.asked.map(({ question }) => question)).toEqual(["quick_plan", "plan"]);
  outside.asked[1]?.answer(JSON.stringify({ bed: { volume: 1, volume_range: [1, 2] } }));
  await expect.poll(() => state.planOf(roomId).value.plan?.bed.volume_range).toEqual([1, 2]);
  await state.addReading(roomId, { down: 10, at: [0, 0] });
  expect(outside.asked).toHaveLength(3);
  expect(state.planOf(roomId).value).toMatchObject({ status: "waking", plan: { bed: { volume: 1 } } });
  outside.asked[2]?.answer(JSON.stringify({ problems: [{ path: "readings", code: "x", message: "", values: {} }] }));
  await expect.poll(() => state.planOf(roomId).value.status).toBe("problems");
  stop();
  await state.addReading(roomId, { down: 20, at: [9, 0] });
  expect(outside.asked).toHaveLength(3);
  expect(seen).toEqual(["waking", "ready", "ready", "waking", "problems"]);
});

test("a plan that a newer question replaced changes nothing; one that failed says so", async () => {
  const roomId = await newRoom();
  const stop = state.planOf(roomId).subscribe(() => undefined);
  outside.asked[0]?.fail(new DOMException("newer", "AbortError"));
  await Promise.resolve();
  expect(state.planOf(roomId).value.status).toBe("waking");
  await state.addReading(roomId, { down: 10, at: [0, 0] });
  outside.asked[1]?.fail(new Error("broke"));
  await expect.poll(() => state.planOf(roomId).value.status).toBe("failed");
  stop();
});
