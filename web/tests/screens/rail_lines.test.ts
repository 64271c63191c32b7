import { expect, test } from "vitest";
import { distance, type Place } from "../../src/drawing/camera";
import { handlesOf, HANDLE_REACH, holdAt } from "../../src/drawing/handles";
import {
  canPart, freeName, inSteps, lengthened, letters, lineAt, movedAcross, offsetsOf, partedAt, SHORTEST, wayFromDegrees, wayOf, withLine, withoutLine,
} from "../../src/screens/rails/layout/lines";
import { spacingsOf, widestOf } from "../../src/screens/rails/layout/spacing";
import { railThrough, type OpenFloor } from "../../src/screens/rails/layout/through";
import type { RailLine } from "../../src/wire";

const WAYS = [0, 17, 45, 90, 133, 180, 271, -60];
const L_ROOM: readonly Place[] = [[0, 0], [6000, 0], [6000, 2000], [2500, 2000], [2500, 5000], [0, 5000]];

function lineOf(degrees: number, long = 3000, id = "A"): RailLine {
  const [ux, uy] = wayFromDegrees(degrees);
  return { id, from: [700, -300], to: [700 + ux * long, -300 + uy * long] };
}

function expectNear(found: Place, wanted: Place, tolerance = 0.02): void {
  expect(distance(found, wanted)).toBeLessThan(tolerance);
}

test.each(WAYS)("a rail at %i degrees that is moved across stays parallel, as long, and lies as far off as told", (degrees) => {
  const line = lineOf(degrees);
  const moved = movedAcross(line, -417.5);
  expectNear(wayOf(moved), wayOf(line), 1e-4);
  expect(distance(moved.from, moved.to)).toBeCloseTo(3000, 1);
  expect(offsetsOf(line, moved.from).off).toBeCloseTo(-417.5, 1);
  expect(offsetsOf(line, moved.to).off).toBeCloseTo(-417.5, 1);
  expect(offsetsOf(line, moved.from).along).toBeCloseTo(0, 1);
});

test.each(WAYS)("an end at %i degrees is drawn out along the rail, the other stays, and neither passes the other", (degrees) => {
  const line = lineOf(degrees);
  const longer = lengthened(line, "to", 250);
  expect(longer.from).toEqual(line.from);
  expect(offsetsOf(line, longer.to).along).toBeCloseTo(3250, 1);
  expect(offsetsOf(line, longer.to).off).toBeCloseTo(0, 1);
  const other = lengthened(line, "from", 250);
  expect(other.to).toEqual(line.to);
  expect(offsetsOf(line, other.from).along).toBeCloseTo(-250, 1);
  expect(distance(lengthened(line, "from", -1e6).from, line.to)).toBeCloseTo(SHORTEST, 1);
  expect(distance(line.from, lengthened(line, "to", -1e6).to)).toBeCloseTo(SHORTEST, 1);
});

test("a rail shorter than the shortest can be made longer and no shorter", () => {
  const stub = lineOf(30, 60);
  expect(distance(lengthened(stub, "to", -20).from, lengthened(stub, "to", -20).to)).toBeCloseTo(60, 1);
  expect(distance(stub.from, lengthened(stub, "to", 500).to)).toBeCloseTo(560, 1);
});

test("moved to and fro a rail is where it was", () => {
  const line = lineOf(33);
  const back = movedAcross(movedAcross(line, 25.4), -25.4);
  expectNear(back.from, line.from);
  expectNear(back.to, line.to);
});

test("a drag goes in whole steps, the nearest", () => {
  expect([inSteps(26, 25.4), inSteps(-40, 25.4), inSteps(12, 25.4), inSteps(13, 25.4)]).toEqual([25.4, -50.8, 0, 25.4]);
});

test("names run through the alphabet and go on in pairs; a new one is no other's and no part's", () => {
  expect([0, 25, 26, 27, 51, 52, 701, 702].map(letters)).toEqual(["A", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
  const named = (ids: readonly string[]) => ids.map((id) => lineOf(0, 3000, id));
  expect([freeName([]), freeName(named(["A", "C"])), freeName(named(["A1", "A2", "B"]))]).toEqual(["A", "B", "C"]);
});

test("a parted rail is two in its place: the first keeps the name, together they are as long", () => {
  const lines = [lineOf(20, 3000, "A"), lineOf(20, 2000, "B")];
  const parted = partedAt(lines, "A", 1200);
  expect(parted.map(({ id }) => id)).toEqual(["A", "C", "B"]);
  const [first, second] = parted;
  expect(first?.to).toEqual(second?.from);
  expect(first && distance(first.from, first.to)).toBeCloseTo(1200, 1);
  expect(second && distance(second.from, second.to)).toBeCloseTo(1800, 1);
  expect(partedAt(lines, "A", 40)).toBe(lines);
  expect([canPart(lineOf(0, 190), 95), canPart(lineOf(0, 201), 100)]).toEqual([false, true]);
});

test("lines are changed and taken away by name, the others left as they are", () => {
  const lines = [lineOf(0, 3000, "A"), lineOf(0, 2000, "B")];
  const changed = withLine(lines, movedAcross(lineOf(0, 2000, "B"), 5));
  expect(changed[0]).toBe(lines[0]);
  expect(changed[1]?.from[1]).toBeCloseTo(-295, 6);
  expect(withoutLine(lines, "A")).toEqual([lines[1]]);
});

test("a tap takes the nearest line within reach", () => {
  const lines = [lineOf(0, 3000, "A"), movedAcross(lineOf(0, 3000, "B"), 500)];
  expect(lineAt(lines, [2000, -100], 260)?.id).toBe("A");
  expect(lineAt(lines, [2000, 0], 260)?.id).toBe("B");
  expect(lineAt(lines, [2000, 600], 260)).toBeNull();
});

test("handles stand off both ends, and are taken before the rail itself", () => {
  const [from, to]: readonly [Place, Place] = [[0, 0], [1000, 0]];
  const scale = 0.05; // px to the mm: a rail of 50 px
  const [first, last] = handlesOf(from, to, scale);
  expect(first[0]).toBeLessThan(0);
  expect(last[0]).toBeGreaterThan(1000);
  expect([holdAt(from, to, first, scale), holdAt(from, to, last, scale), holdAt(from, to, [500, 0], scale)]).toEqual(["from", "to", "body"]);
  const reach = HANDLE_REACH / scale;
  expect(holdAt(from, to, [500, reach - 1], scale)).toBe("body");
  expect(holdAt(from, to, [500, reach + 1], scale)).toBeNull();
  expect(holdAt(from, to, [last[0] + reach - 1, 0], scale)).toBe("to");
});

const OPEN: OpenFloor = { outline: L_ROOM, cutouts: [], obstacles: [], atEnds: 50 };

test("a rail through a tap runs from wall to wall, its ends clear of them", () => {
  expect(railThrough(OPEN, [1000, 1000], [1, 0])).toEqual({ from: [50, 1000], to: [5950, 1000] });
  expect(railThrough(OPEN, [1000, 3000], [1, 0])).toEqual({ from: [50, 3000], to: [2450, 3000] });
  const across = railThrough(OPEN, [1000, 1000], [0, 1]);
  expect(across?.to[1]).toBeCloseTo(4950, 6);
});

test("between the legs of a U the rail stays in the leg that was tapped", () => {
  const outline: readonly Place[] = [[0, 0], [6000, 0], [6000, 4000], [4000, 4000], [4000, 1500], [2000, 1500], [2000, 4000], [0, 4000]];
  const floor = { ...OPEN, outline };
  expect(railThrough(floor, [1000, 3000], [1, 0])).toEqual({ from: [50, 3000], to: [1950, 3000] });
  expect(railThrough(floor, [5000, 3000], [1, 0])).toEqual({ from: [4050, 3000], to: [5950, 3000] });
  expect(railThrough(floor, [3000, 3000], [1, 0])).toBeNull();
});

test("a rail stops at a cutout and short of what stands in the floor, and there is none on either", () => {
  const floor: OpenFloor = { ...OPEN, cutouts: [[[3000, 500], [3500, 500], [3500, 1500], [3000, 1500]]], obstacles: [{ at: [1500, 1000], clear: 100 }] };
  expect(railThrough(floor, [4500, 1000], [1, 0])).toEqual({ from: [3550, 1000], to: [5950, 1000] });
  expect(railThrough(floor, [2000, 1000], [1, 0])).toEqual({ from: [1600, 1000], to: [2950, 1000] });
  expect(railThrough(floor, [3200, 1000], [1, 0])).toBeNull();
  expect(railThrough(floor, [1480, 1020], [1, 0])).toBeNull();
  expect(railThrough(floor, [7000, 1000], [1, 0])).toBeNull();
});

test("spacings are told between neighbours only, where they lie beside each other", () => {
  const rails = [
    { id: "A", from: [0, 0], to: [5000, 0] }, { id: "B1", from: [0, 900], to: [2000, 900] },
    { id: "B2", from: [3000, 900], to: [5000, 900] }, { id: "C", from: [0, 2000], to: [5000, 2000] },
  ] as const;
  const found = spacingsOf(rails);
  expect(found.map(({ rails: pair, gap }) => [pair.join(""), Math.round(gap)])).toEqual([["AB1", 900], ["AB2", 900], ["AC", 2000], ["B1C", 1100], ["B2C", 1100]]);
  const open = found.find(({ rails: pair }) => pair.join("") === "AC");
  expect(open && [open.from, open.to]).toEqual([[2300, 0], [2300, 2000]]); // between the two parts of B
  expect(widestOf(found)?.gap).toBe(2000);
  expect(widestOf(spacingsOf([rails[0]]))).toBeNull();
});

test.each(WAYS)("spacings hang on no direction: %i degrees", (degrees) => {
  const line = lineOf(degrees);
  const rails = [movedAcross(line, 700), line, movedAcross(line, 1500)].map((one, index) => ({ ...one, id: `${index}` }));
  expect(spacingsOf(rails).map(({ gap }) => Math.round(gap))).toEqual([700, 800]);
});
