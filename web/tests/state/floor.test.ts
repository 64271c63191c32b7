/** What is set, read, filled and written down on the floor: each tap a record at once, and one step to undo. */
import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import type { Edit, Kind, Plan } from "../../src/wire";
import { Outside } from "./whole_phone";

let outside: Outside;
let room: string;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  const job = await state.createJob({ name: "Mill house" });
  room = await state.createRoom(job, { name: "Hall", outline: { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] } });
});
afterEach(() => outside.storage.close());

type Rails = Plan["rails"];

/** Rails of a plan as far as setting looks at them: one along each x, with a station at each height of `shims`. */
function railsAt(xs: readonly number[], shims: readonly number[]): Rails {
  const stationsAt = (x: number) => shims.map((shim, n) => ({ at: [x, n * 600], along: n * 600, shim }));
  return xs.map((x, n) => ({ id: "ABC"[n], stations: stationsAt(x) })) as unknown as Rails;
}

/** As another phone wrote it: it comes with a pull, not by an action here. */
async function fromElsewhere(kind: Kind, id: string, fields: object): Promise<void> {
  const edit = { kind, id, fields: { room_id: room, ...fields } };
  await outside.storage.write([edit as Edit], { undo: [] });
}

test("a station that is set counts where it stands; undo takes one tap back, and a rail dragged elsewhere is not set", async () => {
  const rails = railsAt([150, 1950], [6, 8]);
  await state.setStation(room, { rail: "A", at: [150, 0], shim: 6 });
  await state.setStation(room, { rail: "B", at: [1950, 600], shim: 8 });
  expect([...state.setStationsOf(room, rails).keys()]).toEqual(["A:0", "B:1"]);
  const renamed = [...rails].reverse().map((rail, n) => ({ ...rail, id: "XY"[n] ?? "" }));
  expect([...state.setStationsOf(room, renamed).keys()]).toEqual(["X:1", "Y:0"]);
  expect([...state.setStationsOf(room, railsAt([150.9, 1960], [6, 8])).keys()]).toEqual(["A:0"]);
  await state.undo();
  expect([...state.setStationsOf(room, rails).keys()]).toEqual(["A:0"]);
  await state.undo();
  expect(state.setStationsOf(room, rails).size).toBe(0);
});

test("set once more at a new height it is the same record: one step to undo, and then it is as it was set before", async () => {
  const rails = railsAt([150], [6]);
  await state.setStation(room, { rail: "A", at: [150, 0], shim: 6 });
  const before = state.setStationsOf(room, rails).get("A:0");
  const grown = railsAt([150], [9.5]);
  expect(state.setStationsOf(room, grown).get("A:0")?.since).toBe(3.5);
  await state.setStation(room, { rail: "A", at: [150.4, 0], shim: 9.5 }, before);
  expect(state.stationsOf(room).value.map(({ fields }) => [fields.at, fields.shim])).toEqual([[[150, 0], 9.5]]);
  expect(state.setStationsOf(room, grown).get("A:0")?.since).toBe(0);
  await state.undo();
  expect(state.setStationsOf(room, rails).get("A:0")).toEqual({ ids: before?.ids, since: 0 });
  expect(state.deletedIn(room)).toEqual([]);
});

test("a station that two phones set counts once, by the newer height, and is unset for both in one step", async () => {
  const rails = railsAt([150], [6]);
  await fromElsewhere("station", "0197a000-0000-7000-8000-000000000001", { rail: "A", at: [150, 0.5], shim: 4 });
  await state.setStation(room, { rail: "A", at: [150, 0], shim: 6 });
  const set = state.setStationsOf(room, rails).get("A:0");
  expect([set?.ids.length, set?.since]).toEqual([2, 0]);
  if (set) await state.unsetStation(set);
  expect(state.setStationsOf(room, rails).size).toBe(0);
  await state.undo();
  expect(state.setStationsOf(room, rails).get("A:0")?.ids).toEqual(set?.ids);
});

test("what is set is worked out once for a plan, however often it is asked, and anew after a change", async () => {
  const rails = railsAt([150, 1950], [6, 8]);
  await state.setStation(room, { rail: "A", at: [150, 0], shim: 6 });
  const first = state.setStationsOf(room, rails);
  expect(state.setStationsOf(room, rails)).toBe(first);
  await state.setStation(room, { rail: "B", at: [1950, 0], shim: 6 });
  expect(state.setStationsOf(room, rails)).not.toBe(first);
  expect(state.setStationsOf(room, rails).size).toBe(2);
});

test("rails placed by hand and given back, checks and truings: each is one step to undo", async () => {
  await state.placeRails(room, [{ id: "A", from: [150, 0], to: [150, 3000] }]);
  await state.placeRails(room, null);
  await state.undo();
  expect(state.roomOf(room)?.fields["rails.lines"]).toHaveLength(1);
  const check = await state.addRailCheck(room, { rail: "A", off: 1.5, from: 0, to: 1200 });
  await state.editRailCheck(check, { reversed_off: -0.5 });
  await state.trueRails(room, [{ rail: "A", lie: 1, from_raise: 1, to_raise: 0 }, { rail: "B", lie: 2, from_raise: 0, to_raise: -2 }]);
  expect(state.entriesOf(room).value).toHaveLength(2);
  expect(new Set(state.entriesOf(room).value.map(({ fields }) => fields.at)).size).toBe(1);
  await state.undo();
  expect(state.entriesOf(room).value).toEqual([]);
  await state.undo();
  expect(state.railChecksOf(room).value[0]?.fields.reversed_off).toBeNull();
  await state.undo();
  expect(state.railChecksOf(room).value).toEqual([]);
});

test("truing no rail leaves nothing to undo", async () => {
  const name = state.roomOf(room)?.fields.name;
  await state.editRoom(room, { name: "Bath" });
  await state.trueRails(room, []);
  await state.undo();
  expect(state.roomOf(room)?.fields.name).toBe(name);
});

/** A section from one x to another, as wide as the room. */
function sectionAt(id: string, low: number, high: number): state.SectionPlace {
  return { id, polygon: [[low, 0], [high, 0], [high, 3000], [low, 3000]], at: [(low + high) / 2, 1500] };
}

const [FAR, NEAR] = [sectionAt("S1", 0, 2000), sectionAt("S2", 2000, 4000)];
const TWO = [FAR, NEAR];
const [EARLIER, LATER] = ["2026-05-04T09:00:00Z", "2026-05-04T09:20:00Z"];

test("batches, and the moments of a section: one record a section, one step a tap", async () => {
  const batch = await state.mixBatch(room, FAR);
  await state.editBatch(batch, { placed_at: EARLIER });
  await state.markSection(room, FAR, "placed_at", EARLIER);
  await state.markSection(room, FAR, "screeded_at", LATER);
  expect(state.placementsOf(room).value).toHaveLength(1);
  await state.markSection(room, FAR, "screeded_at", null);
  expect(state.sectionTimesOf(room, TWO).get("S1")).toEqual({ placed_at: EARLIER });
  await state.undo();
  expect(state.sectionTimesOf(room, TWO).get("S1")).toMatchObject({ screeded_at: LATER });
  for (let step = 0; step < 3; step += 1) await state.undo();
  expect(state.sectionTimesOf(room, TWO).size).toBe(0);
  expect(state.batchesOf(room).value[0]?.fields.placed_at).toBeNull();
  await state.undo();
  expect(state.batchesOf(room).value).toEqual([]);
});

test("a bed placed with one tap is placed section by section, in one step; what was told of it before it had sections goes over to them", async () => {
  await state.addPlacement(room, { section: "", placed_at: LATER });
  await state.placeSections(room, TWO, EARLIER);
  expect([...state.sectionTimesOf(room, TWO)].sort()).toEqual([["S1", { placed_at: EARLIER }], ["S2", { placed_at: EARLIER }]]);
  expect(state.placementsOf(room).value.map(({ fields }) => fields.placed_at).filter((at) => at)).toEqual([EARLIER, EARLIER]);
  await state.undo();
  expect(state.sectionTimesOf(room, TWO).size).toBe(0);
  expect(state.placementsOf(room).value.map(({ fields }) => fields.placed_at)).toEqual([LATER]);
});

test("a section that two phones began is one: the newer record tells, and what is taken back is taken back in both", async () => {
  await fromElsewhere("placement", "0197a000-0000-7000-8000-000000000001", { section: "S1", placed_at: EARLIER, mixed_at: EARLIER });
  await fromElsewhere("placement", "0197a000-0000-7000-8000-000000000002", { section: "S1", placed_at: LATER });
  expect([...state.sectionTimesOf(room, TWO)]).toEqual([["S1", { mixed_at: EARLIER, placed_at: LATER }]]);
  await state.markSection(room, FAR, "placed_at", null);
  expect([...state.sectionTimesOf(room, TWO)]).toEqual([["S1", { mixed_at: EARLIER }]]);
  await state.undo();
  expect(state.sectionTimesOf(room, TWO).get("S1")?.placed_at).toBe(LATER);
  await state.markSection(room, NEAR, "placed_at", null);
  expect(state.sectionTimesOf(room, TWO).size).toBe(1);
});

test("sections numbered anew keep what was told of them: place, not number, tells which is meant", async () => {
  await state.mixBatch(room, FAR);
  await state.markSection(room, FAR, "placed_at", EARLIER);
  const renamed = [{ ...NEAR, id: "S1" }, { ...FAR, id: "S2" }];
  expect([...state.sectionTimesOf(room, renamed)]).toEqual([["S2", { placed_at: EARLIER }]]);
  expect(state.batchesIn(room, renamed).map(({ fields }) => fields.section)).toEqual(["S2"]);
  await state.cutOffSection(room, { ...FAR, id: "S2" });
  await state.markSection(room, { ...NEAR, id: "S1" }, "placed_at", LATER);
  expect(state.placementsOf(room).value).toHaveLength(2);
  expect(Object.keys(state.sectionTimesOf(room, renamed).get("S2") ?? {})).toEqual(["placed_at", "screeded_at"]);
  expect(state.sectionTimesOf(room, TWO).get("S2")).toEqual({ placed_at: LATER });
});

test("a record without a place is told by its number, and gets its place with the next tap", async () => {
  await fromElsewhere("placement", "0197a000-0000-7000-8000-000000000001", { section: "S2", placed_at: EARLIER });
  await state.markSection(room, NEAR, "screeded_at", LATER);
  expect(state.placementsOf(room).value.map(({ fields }) => [fields.section, fields.at])).toEqual([["S2", NEAR.at]]);
  expect([...state.sectionTimesOf(room, [{ ...NEAR, id: "S7" }, FAR])]).toEqual([["S7", { placed_at: EARLIER, screeded_at: LATER }]]);
});

test("two sections that became one are in place once both were; one tap then tells it of the whole, and one undo takes that back", async () => {
  const whole = sectionAt("S1", 0, 4000);
  await state.markSection(room, FAR, "placed_at", EARLIER);
  await state.markSection(room, NEAR, "mixed_at", LATER);
  expect([...state.sectionTimesOf(room, [whole])]).toEqual([["S1", { mixed_at: EARLIER }]]);
  await state.markSection(room, NEAR, "placed_at", LATER);
  expect([...state.sectionTimesOf(room, [whole])]).toEqual([["S1", { mixed_at: LATER, placed_at: LATER }]]);
  await state.cutOffSection(room, whole);
  expect(state.sectionTimesOf(room, [whole]).get("S1")?.screeded_at).toBeDefined();
  expect(state.placementsOf(room).value.map(({ fields }) => fields.at)).toEqual([whole.at, whole.at]);
  await state.undo();
  expect(state.placementsOf(room).value.map(({ fields }) => fields.at)).toEqual([FAR.at, NEAR.at]);
});

test("a place just outside every section counts in the nearest, one far outside in none", async () => {
  await fromElsewhere("placement", "0197a000-0000-7000-8000-000000000001", { section: "S1", at: [4049, 100], placed_at: EARLIER });
  await fromElsewhere("placement", "0197a000-0000-7000-8000-000000000002", { section: "S1", at: [4051, 100], placed_at: LATER });
  expect([...state.sectionTimesOf(room, TWO)]).toEqual([["S2", { placed_at: EARLIER }]]);
});

test("work that two phones called stopped goes on with one tap, and stops again with one undo", async () => {
  await fromElsewhere("entry", "0197a000-0000-7000-8000-000000000001", { what: "stopped", at: "2026-05-04T09:00:00Z" });
  const stopped = await state.addEntry(room, { what: "stopped" });
  await state.addEntry(room, { what: "helper" });
  expect(state.lasting(room, "stopped")?.id).toBe(stopped);
  await state.endEntry(stopped);
  expect([state.lasting(room, "stopped"), state.lasting(room, "helper")?.fields.what]).toEqual([undefined, "helper"]);
  await state.undo();
  expect(state.lasting(room, "stopped")?.id).toBe(stopped);
});

const PICTURE = { hash: "b".repeat(64), media_type: "image/jpeg", width: 8, height: 6, bytes: new Uint8Array([1, 2, 3]), thumbnail: new Uint8Array([1]) } as const;

test("a photo and its line of the day book are made together, kept with the picture, and undone together", async () => {
  outside.prepared = PICTURE;
  await state.setDraft("note", "Crack by the door");
  const of = { entry: { what: "note", text: "Crack by the door" } } as const;
  const photo = await state.addPhoto(room, new Blob(), of, { draft: "note" });
  const [entry] = state.entriesOf(room).value;
  expect(entry?.fields).toMatchObject({ what: "note", text: "Crack by the door", room_id: room });
  expect(state.photosOfEntry(entry?.id ?? "").map(({ id }) => id)).toEqual([photo]);
  expect(state.getDraft("note")).toBeUndefined();
  expect(await outside.storage.photos.picture(PICTURE.hash)).toEqual(PICTURE.bytes);
  expect((await outside.storage.waiting(9)).slice(-2).map(({ kind }) => kind)).toEqual(["entry", "photo"]);
  const later = await state.addPhoto(room, new Blob(), { entryId: entry?.id });
  expect(state.photosOfEntry(entry?.id ?? "").map(({ id }) => id)).toEqual([photo, later]);
  await state.undo();
  await state.undo();
  expect([state.entriesOf(room).value, state.photosOf(room).value]).toEqual([[], []]);
});

test("where the file is no picture nothing is made, and the note stays typed", async () => {
  outside.prepared = null;
  await state.setDraft("note", "Crack");
  expect(await state.addPhoto(room, new Blob(), { entry: { what: "note", text: "Crack" } }, { draft: "note" })).toBeNull();
  expect([state.entriesOf(room).value, state.getDraft("note")]).toEqual([[], "Crack"]);
});

const MADE: Readonly<Partial<Record<Kind, object>>> = {
  reading: { down: 1, at: [0, 0] }, placement: { section: "S1" }, batch: { mixed_at: "2026-05-04T09:00:00Z" }, station: { rail: "A", at: [0, 0], shim: 3 },
  rail_check: { rail: "A", off: 1 }, entry: { what: "note", at: "2026-05-04T09:00:00Z" }, climate: { at: "2026-05-04T09:00:00Z" },
  photo: { hash: PICTURE.hash }, alternative: { name: "Level" },
};

test.each(Object.entries(MADE))("a %s that was deleted in a room is found there, and comes back", async (kind, fields) => {
  const id = crypto.randomUUID();
  await fromElsewhere(kind as Kind, id, fields);
  await state.deleteRecord(kind as Kind, id);
  expect(state.deletedIn(room).map((row) => [row.kind, row.id])).toEqual([[kind, id]]);
  await state.restoreRecord(kind as Kind, id);
  expect(state.deletedIn(room)).toEqual([]);
});
