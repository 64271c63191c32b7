import { afterEach, beforeEach, expect, test } from "vitest";
import * as state from "../../src/state";
import type { Instrument, Point, Row } from "../../src/wire";
import { Outside } from "./whole_phone";

const SQUARE = { vertices: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] } as const;
const LASER: Instrument = { id: "laser-1", name: "Laser 1", kind: "laser", sigma: 1, sigma_per_metre: 0.1 };
const LEVEL: Instrument = { id: "level-1", name: "Long level 1", kind: "straightedge", sigma: 0.8, sigma_per_metre: 0.3 };
const HERE = { setup: state.FIRST_SETUP };
let outside: Outside;
let room: string;

beforeEach(async () => {
  outside = new Outside();
  await outside.connect();
  const job = await state.createJob({ name: "Mill house" });
  room = await state.createRoom(job, { name: "Hall", outline: SQUARE });
});
afterEach(() => outside.storage.close());

const fields = () => state.roomOf(room)?.fields ?? {};
const readings = () => state.readingsOf(room).value;
const standing = () => state.standingIn(room, fields(), readings());
const tied = () => [...state.tiedSetups(fields(), readings())];

async function begin(instrument = LASER): Promise<string> {
  const begun = await state.beginSetup(room, { instrument });
  return "setup" in begun ? begun.setup : "";
}

function read(setup: string, at: Point, down = 1000): Promise<string> {
  return state.addReading(room, { down, at, ...(setup === "" ? {} : { setup }) });
}

test("a room has one set-up that nobody began, and one stands there", () => {
  expect(state.setupsIn(fields(), readings())).toEqual([{ id: "" }]);
  expect(standing()).toEqual(HERE);
});

test("a second set-up stands beside the first, and this phone reads from it, also after the app was closed", async () => {
  await read("", [100, 100]);
  const second = await begin();
  expect(state.setupsIn(fields(), readings()).map(({ id }) => id)).toEqual(["", second]);
  await outside.reopen();
  expect(standing()).toEqual({ setup: second });
});

test("where nothing was read before, the set-up that is begun is the only one", async () => {
  const only = await begin();
  expect(state.setupsIn(fields(), readings()).map(({ id }) => id)).toEqual([only]);
});

test("what becomes known of the first set-up leaves it the first", async () => {
  await read("", [100, 100]);
  const second = await begin();
  await state.changeSetup(room, "", { instrument: LASER, name: "Hallway", at: [10, 20] });
  expect(state.setupsIn(fields(), readings()).map(({ id, name }) => [id, name])).toEqual([["", "Hallway"], [second, undefined]]);
});

test("a re-read place ties two set-ups, a place beside it does not", async () => {
  for (const at of [[100, 100], [2000, 100], [100, 2000]] as const) await read("", at);
  const second = await begin();
  await read(second, [2001, 100]);
  expect(tied()).toEqual([""]);
  await read(second, [2000, 100]);
  expect(tied().sort()).toEqual(["", second]);
});

test("a mark read from both ties them; so do two marks of known height; one that only one set-up reads does not", async () => {
  await read("", [100, 100]);
  const nail = await state.keepMark(room, { name: "nail by the door" });
  const second = await begin();
  await state.addReading(room, { down: 900, mark: nail, setup: second });
  expect(tied()).toEqual([""]);
  await state.addReading(room, { down: 800, mark: nail });
  expect(tied().sort()).toEqual(["", second]);
  const [a, b] = [await state.keepMark(room, { name: "a", height: 0 }), await state.keepMark(room, { name: "b", height: 7 })];
  const third = await begin();
  await state.addReading(room, { down: 700, mark: a, setup: third });
  expect(tied()).toEqual([third]); // what is known comes before what is most
  await state.addReading(room, { down: 700, mark: b, setup: second });
  expect(tied().sort()).toEqual(["", second, third].sort());
});

test("ties reach along a chain of set-ups whatever the order they were read in", async () => {
  const ids = [await begin(), await begin(), await begin()];
  const [a = "", b = "", c = ""] = ids;
  await read(c, [300, 300]);
  await read(b, [300, 300]);
  await read(a, [200, 200]);
  expect(tied().length).toBe(2);
  await read(b, [200, 200]);
  expect(tied().sort()).toEqual([...ids].sort());
});

test("a long level laid from place to place makes a set-up and two readings a laying, in one step to undo", async () => {
  expect(await state.beginSetup(room, { instrument: LEVEL })).toEqual({ laying: LEVEL.id });
  await state.addLaying(room, { instrument: LEVEL, from: [100, 100], to: [1900, 100], gap: 5, under: "to", typed: "5" });
  await state.addLaying(room, { instrument: LEVEL, from: [1900, 100], to: [3700, 100], gap: 3, under: "from", typed: "3" });
  expect(readings().map(({ fields: { at, down } }) => [at, down])).toEqual([[[100, 100], 0], [[1900, 100], 5], [[1900, 100], 3], [[3700, 100], 0]]);
  expect(fields().setups).toMatchObject([{ kind: "straightedge", at: [100, 100], instrument: LEVEL.id }, { at: [1900, 100] }]);
  expect(tied().length).toBe(2);
  await state.undo();
  expect(readings().length).toBe(2);
  expect(fields().setups?.length).toBe(1);
});

test("the document names no names: set-ups and marks go in by what the engine knows of them", async () => {
  await read("", [100, 100]);
  expect(state.documentFromRoom(room)?.setups).toBeUndefined();
  await state.beginSetup(room, { instrument: LASER, name: "By the window", at: [500, 500] });
  await state.keepMark(room, { name: "nail", height: 12 }, "12");
  const document = state.documentFromRoom(room);
  expect(document?.readings).toMatchObject([{ at: [100, 100], setup: "first" }]);
  expect(document?.setups).toEqual([{ id: "first" }, { id: expect.any(String) as unknown, at: [500, 500], instrument: LASER.id, kind: "laser", sigma: 1, sigma_per_metre: 0.1 }]);
  expect(document?.marks).toEqual([{ id: expect.any(String) as unknown, height: 12 }]);
  expect(fields().typed).toEqual({ [`marks.${fields().marks?.[0]?.id ?? ""}`]: "12" });
});

test("a test of an instrument is kept in every room of the job that knows it, and goes along into a new one", async () => {
  await state.keepInstrument(room, LASER);
  const job = fields().job_id ?? "";
  const beside = await state.createRoom(job, { name: "Bath", instruments: [LASER] });
  const apart = await state.createRoom(job, { name: "Shed" });
  await state.addCheck(room, { kind: "rod", instrument: LASER.id, accepted: true, offset: 3 }, LASER, HERE);
  expect(state.roomOf(beside)?.fields.instrument_checks).toEqual(fields().instrument_checks);
  expect(state.roomOf(apart)?.fields.instrument_checks).toBeUndefined();
  await state.beginSetup(apart, { instrument: LASER });
  expect(state.roomOf(apart)?.fields.instrument_checks).toEqual(fields().instrument_checks);
});

test("the set-up one stands at takes the instrument that was tested there, unless it has one", async () => {
  await read("", [100, 100]);
  await state.addCheck(room, { kind: "rod", instrument: LASER.id, accepted: true, offset: 3 }, LASER, HERE);
  expect(fields().setups).toMatchObject([{ id: "", instrument: LASER.id }]);
  const other: Instrument = { ...LASER, id: "laser-2", name: "Laser 2" };
  await state.addCheck(room, { kind: "rod", instrument: other.id, accepted: true, offset: 1 }, other, HERE);
  expect(fields().setups).toMatchObject([{ id: "", instrument: LASER.id }]);
});

test("a person may change their mind about a correction", async () => {
  await state.addCheck(room, { kind: "flip", instrument: LEVEL.id, accepted: true, off: 4, reversed_off: 2, length: 2000 }, LEVEL, { laying: LEVEL.id });
  const [check] = fields().instrument_checks ?? [];
  if (!check) throw new Error("the test was not kept");
  await state.acceptCheck(room, check, false);
  expect(fields().instrument_checks).toEqual([{ ...check, accepted: false }]);
});

test("a correction keeps the set-up of the reading it corrects, and the tie with it", async () => {
  const shared = await read("", [100, 100]);
  const second = await begin();
  await read(second, [100, 100], 900);
  await state.correctReading(shared, { down: 1010 });
  expect(readings().map(({ fields: { setup, down } }: Row<"reading">) => [setup, down])).toEqual([[second, 900], [undefined, 1010]]);
  expect(tied().sort()).toEqual(["", second]);
});

test("a mark that is taken away takes its readings along, and undo brings all of it back", async () => {
  const nail = await state.keepMark(room, { name: "nail" });
  const id = await state.addReading(room, { down: 900, mark: nail });
  await state.removeMark(room, nail, [id]);
  expect([fields().marks, readings()]).toEqual([[], []]);
  await state.undo();
  expect([fields().marks?.length, readings().length]).toEqual([1, 1]);
});

test("skipped places are remembered until they are to be read after all", async () => {
  await state.skipPlace(room, [75, 75]);
  await state.skipPlace(room, [3925, 75]);
  expect(fields()["levels.skipped"]).toEqual([[75, 75], [3925, 75]]);
  await state.readSkipped(room);
  expect(fields()["levels.skipped"]).toEqual([]);
});

test("the places to read are asked for once an outline, not at each reading", async () => {
  const places = [{ id: "corner-1", at: [75, 75], kind: "corner" }];
  const stop = state.patternOf(room).subscribe(() => undefined);
  expect(state.patternOf(room).value).toBeNull();
  const walks = () => outside.asked.filter(({ question }) => question === "walk");
  walks()[0]?.answer(JSON.stringify({ places, length: 0, spacing: 1000 }));
  await expect.poll(() => state.patternOf(room).value).toEqual(places);
  await read("", [100, 100]);
  expect(walks().length).toBe(1);
  await state.editRoom(room, { outline: { vertices: [[0, 0], [4000, 0], [4000, 2000]] } });
  expect(walks().length).toBe(2);
  stop();
});

test("a place of the bed read from both ties two set-ups, unless it was worked over between; read again from its own it is of another height", async () => {
  const bed = (setup: string, at: Point) => state.addReading(room, { down: 960, at, stage: "bed", ...(setup === "" ? {} : { setup }) });
  const tiedNow = () => [...state.tiedSetups(fields(), readings(), state.entriesOf(room).value)];
  await bed("", [100, 100]);
  await bed("", [900, 900]);
  const second = await begin();
  await new Promise((rest) => { setTimeout(rest, 5); });
  await state.touchBed(room, "rubbed", [150, 100]);
  await new Promise((rest) => { setTimeout(rest, 5); });
  await bed(second, [100, 100]);
  expect(tiedNow()).toEqual([""]);
  await bed(second, [900, 900]);
  expect(tiedNow()).toEqual(["", second]);
});
