import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import { showRows } from "../../src/state/connect";
import { session } from "../../src/state/status";
import { PRICES_ID, SUPPLIES_ID, type Row } from "../../src/wire";
import { Outside } from "./whole_phone";

const SQUARE = { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] } as const;
const TOP = { kind: "level", height: 42 } as const;
let outside: Outside;
let roomId: string;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  const jobId = await state.createJob({ name: "Mill house" });
  roomId = await state.createRoom(jobId, { name: "Hall", outline: SQUARE });
});
afterEach(() => {
  as(null);
  outside.storage.close();
});

function as(role: state.Role | null, person: string | null = null): void {
  session.value = { ...session.peek(), role, person };
}

test("the company's packages hold for a room until it says otherwise, and again once it says nothing any more", async () => {
  await state.editSupplies({ "supplies.tile.box_area": 1.25, "supplies.tile.waste": 0.15, "supplies.membrane.lap": null });
  await state.editRoom(roomId, { "supplies.tile.waste": 0.2, "joints.exposure": "outdoors" });
  expect(state.documentFromRoom(roomId)).toMatchObject({ joints: { exposure: "outdoors" } });
  expect(state.documentFromRoom(roomId)?.supplies).toEqual({ tile: { box_area: 1.25, waste: 0.2 } });
  await state.editRoom(roomId, { "supplies.tile.waste": null });
  expect(state.documentFromRoom(roomId)?.supplies).toEqual({ tile: { box_area: 1.25, waste: 0.15 } });
});

test("prices go into the plan of a foreman and of a phone that never joined, and into nobody else's", async () => {
  await state.editPrices({ "prices.cement_bag": 14, "prices.labour.hour": 55 });
  const prices = { cement_bag: 14, labour: { hour: 55 } };
  for (const role of [null, "foreman"] as const) {
    as(role);
    expect(state.documentFromRoom(roomId)?.prices).toEqual(prices);
  }
  for (const role of ["setter", "viewer"] as const) {
    as(role);
    expect(state.companyPrices()).toBeUndefined();
    expect(JSON.stringify(state.documentFromRoom(roomId))).not.toContain("prices");
  }
});

test("taking back the first price empties it and leaves the record, which other phones write too", async () => {
  await state.editPrices({ "prices.cement_bag": 14 });
  expect(await state.undo()).toBe(true);
  expect(state.rowOf("prices", PRICES_ID)?.fields).toEqual({ "prices.cement_bag": null });
  expect(state.documentFromRoom(roomId)?.prices).toBeUndefined();
});

test("what is deleted of the company's counts for nothing, and a new price brings it back", async () => {
  await state.editPrices({ "prices.cement_bag": 14 });
  await state.deleteRecord("prices", PRICES_ID);
  expect(state.companyPrices()).toBeUndefined();
  await state.editPrices({ "prices.tile_box": 30 });
  expect(state.documentFromRoom(roomId)?.prices).toEqual({ cement_bag: 14, tile_box: 30 });
});

test("an alternative is thought of without touching the room; choosing it is one step, with name and time, and so is undoing", async () => {
  as("foreman", "Ana");
  const before = Date.now();
  const id = await state.addAlternative(roomId, { name: "Level", top: TOP });
  expect(state.roomOf(roomId)?.fields["bed.top"]).toBeUndefined();
  await state.chooseAlternative(id);
  expect(state.roomOf(roomId)?.fields["bed.top"]).toEqual(TOP);
  expect(state.decisionOf(roomId)?.fields).toMatchObject({ name: "Level", chosen_by: "Ana" });
  expect(Date.parse(state.decisionOf(roomId)?.fields.chosen_at ?? "")).toBeGreaterThanOrEqual(before);
  expect(await state.undo()).toBe(true);
  expect([state.roomOf(roomId)?.fields["bed.top"], state.decisionOf(roomId)]).toEqual([null, undefined]);
  expect(state.alternativesOf(roomId).value.map((row) => row.id)).toEqual([id]);
});

test("a decision holds only while the room has that top; of two the later one", async () => {
  const first = await state.addAlternative(roomId, { name: "Level", top: TOP });
  const second = await state.addAlternative(roomId, { name: "Least", top: { kind: "least_mortar", holds: [{ opening: "d1" }] } });
  await state.chooseAlternative(first);
  await state.chooseAlternative(second);
  expect(state.decisionOf(roomId)?.id).toBe(second);
  await state.editRoom(roomId, { "bed.top": { kind: "level", height: 43 } });
  expect(state.decisionOf(roomId)).toBeUndefined();
  await state.editRoom(roomId, { "bed.top": { height: 42, kind: "level" } });
  expect(state.decisionOf(roomId)?.id).toBe(first);
});

test("two values that met in the company's records are for foremen to decide", () => {
  const lost = { value: 12, person: "Eva", device_id: "d", at: "2026-05-04T08:00:00Z", sequence: 9 };
  const row: Row<"supplies"> = { kind: "supplies", id: SUPPLIES_ID, fields: { "supplies.tile.waste": 0.1 }, sequence: 9, waiting: 0, conflicts: { "supplies.tile.waste": [lost] } };
  showRows([row]);
  as("setter");
  expect(state.openConflicts.value).toEqual([]);
  as("foreman");
  expect(state.openConflicts.value.map(({ field }) => field)).toEqual(["supplies.tile.waste"]);
});

test("a kind that only a later version knows stays stored and stops nothing else from being shown", () => {
  const other = { kind: "weather", id: "w", fields: {}, sequence: 1, waiting: 0, conflicts: {} } as unknown as Row;
  const jobId = state.roomOf(roomId)?.fields.job_id ?? "";
  const renamed: Row<"job"> = { kind: "job", id: jobId, fields: { name: "Renamed" }, sequence: 2, waiting: 0, conflicts: {} };
  showRows([other, renamed]);
  expect(state.jobOf(jobId)?.fields.name).toBe("Renamed");
});
