import { expect, test } from "vitest";
import { breaksOf, isBroken, warnedRails } from "../../src/screens/rails/layout/breaks";
import { countsOf } from "../../src/screens/rails/layout/explained";
import { wayFromDegrees } from "../../src/screens/rails/layout/lines";
import { sidesOf } from "../../src/screens/rails/layout/moves";
import { drawnRails, lineOfRail, linesOfPlan, railsOfLine } from "../../src/screens/rails/layout/shown";
import { directionOf, halfTurn, longestWallWay, wayNamed } from "../../src/screens/rails/layout/ways";
import type { Caution, Rail, RailLine } from "../../src/wire";

const STRIP = { thickness: 25.4, width: 38.1, length: 2438.4 };

function railAt(id: string, y: number, from = 0, to = 4000): Rail {
  const station = { subfloor: 0, top: 30, shim: 4, sixteenths: 3, millimetres: 4, is_break: false };
  const lie = { order: 1, from: 0, to: 2400, stations: [0], overlap: 0, strip: null };
  const stations = [from, to].map((x) => ({ ...station, at: [x, y] as const, along: x - from }));
  return { id, from: [from, y], to: [to, y], strip: STRIP, stations, settings: [lie, { ...lie, order: 2 }], ramp_volume: 0.002 };
}

function cautionAt(where: string, code: string): Caution {
  return { where, code, text: code, values: {} };
}

const RAILS = [railAt("A", 100), railAt("B1", 900, 0, 1500), railAt("B2", 900, 2500, 4000), railAt("C", 2500)];
const PLACED: readonly RailLine[] = [
  { id: "A", from: [0, 100], to: [4000, 100] }, { id: "B", from: [0, 900], to: [4000, 900] }, { id: "C", from: [0, 2500], to: [4000, 2500] },
];

test("the proposal becomes lines that keep the rails' names and places", () => {
  expect(linesOfPlan({ rails: RAILS }).map(({ id, from, to }) => [id, from, to])).toEqual(RAILS.map(({ id, from, to }) => [id, from, to]));
});

test("parts of a line that a cutout interrupts belong to it, unless a line has the part's own name", () => {
  expect(RAILS.map(({ id }) => lineOfRail(PLACED, id)?.id)).toEqual(["A", "B", "B", "C"]);
  expect(railsOfLine(PLACED, PLACED[1] as RailLine, RAILS).map(({ id }) => id)).toEqual(["B1", "B2"]);
  expect(lineOfRail(linesOfPlan({ rails: RAILS }), "B1")?.id).toBe("B1");
  expect(lineOfRail(PLACED, "Z")).toBeNull();
});

test("a line that was moved is drawn where it is until the plan comes, the others as the plan tells them", () => {
  const moved = PLACED.map((line) => (line.id === "C" ? { ...line, from: [0, 2400], to: [4000, 2400] } as const : line));
  const drawn = drawnRails({ lines: moved, told: PLACED, rails: RAILS, hand: "C", warned: new Set(["B2", "C"]) });
  expect(drawn.map(({ id, from, isInHand, stations, warns }) => [id, from[1], isInHand, stations.length, warns])).toEqual([
    ["A", 100, false, 2, false], ["B1", 900, false, 2, false], ["B2", 900, false, 2, true], ["C", 2400, true, 0, false],
  ]);
});

test("a line that was interrupted is whole while it is in hand, and one that was taken away is gone", () => {
  const drawn = drawnRails({ lines: PLACED.slice(1), told: PLACED, rails: RAILS, hand: "B", warned: new Set() });
  expect(drawn.map(({ id, from, to }) => [id, from[0], to[0]])).toEqual([["B", 0, 4000], ["C", 0, 4000]]);
});

test("what is broken comes before what is to know, each at its rail", () => {
  const cautions = [cautionAt("rails", "by_hand"), cautionAt("rails[3]", "rail_near_wall"), cautionAt("rails[0]", "rails_too_far"), cautionAt("bed", "too_heavy"), cautionAt("rails[2]", "rail_not_needed")];
  const breaks = breaksOf({ rails: RAILS, cautions });
  expect(breaks.map(({ caution, rail }) => [caution.code, rail])).toEqual([["rails_too_far", "A"], ["rail_near_wall", "C"], ["rail_not_needed", "B2"], ["by_hand", null]]);
  expect(breaks.filter(isBroken)).toHaveLength(2);
  expect([...warnedRails(breaks)]).toEqual(["A", "C"]);
});

test("a caution that is new to the phone counts as broken", () => {
  const [one] = breaksOf({ rails: RAILS, cautions: [cautionAt("rails[0]", "never_heard_of")] });
  expect(one && isBroken(one)).toBe(true);
});

test("the figures count rails, stations, moves beyond each rail's first lie, and the widest gap", () => {
  const counts = countsOf({ rails: RAILS });
  expect(counts).toEqual({ rails: 4, stations: 8, moves: 4, settings: 8, widest: 2400, ramps: 0.008 });
  expect(countsOf({ rails: [] })).toEqual({ rails: 0, stations: 0, moves: 0, settings: 0, widest: null, ramps: 0 });
});

const FLAT = [[0, 0], [5000, 0], [5000, 3000], [0, 3000]] as const;

test("ways are named by the longest wall, whichever way round it runs", () => {
  expect(longestWallWay(FLAT)).toBe(0);
  expect(longestWallWay([...FLAT].reverse())).toBeCloseTo(0, 9);
  expect(longestWallWay([])).toBe(0);
  expect([wayNamed("auto", 30), wayNamed(30, 30), wayNamed(210, 30), wayNamed(-60, 30), wayNamed(31, 30)]).toEqual(["best", "along", "along", "across", "degrees"]);
  for (const way of ["best", "along", "across"] as const) expect(wayNamed(directionOf(way, 143) ?? "auto", 143)).toBe(way);
  expect(directionOf("degrees", 143)).toBeNull();
  expect([halfTurn(-30), halfTurn(180), halfTurn(359.99), halfTurn(90)]).toEqual([150, 0, 0, 90]);
});

test.each([[0, "ArrowDown", "ArrowUp"], [180, "ArrowDown", "ArrowUp"], [90, "ArrowLeft", "ArrowRight"], [-90, "ArrowLeft", "ArrowRight"], [20, "ArrowDown", "ArrowUp"]])(
  "a rail at %i degrees goes first %s, then %s on the drawing", (degrees, back, on) => {
    const [ux, uy] = wayFromDegrees(degrees);
    const sides = sidesOf({ id: "A", from: [0, 0], to: [1000 * ux, 1000 * uy] });
    expect(sides.map(({ key }) => key)).toEqual([back, on]);
    const [first] = sides;
    const moved = [-uy * first.sign, ux * first.sign];
    expect(back === "ArrowLeft" ? moved[0] : moved[1]).toBeLessThan(0); // y runs up in a room
  },
);
