import { expect, test } from "vitest";
import { walkOf } from "../../src/drawing/figure";
import { routeFromPath } from "../../src/screens/common/route";
import { steppedHeight } from "../../src/screens/bed/steps";
import { nextName } from "../../src/screens/outline/names";
import { closedWalls, tidyTurn } from "../../src/screens/outline/walkedWalls";
import { afterwards, inHand, standingsOf } from "../../src/screens/rails/stations";
import { roundOf } from "../../src/screens/levels/round";
import { proposedPlaces } from "../../src/drawing/pattern";
import type { Row } from "../../src/state";
import type { Rail } from "../../src/wire";

const EIGHTH = 25.4 / 8;

test("every address stands for one screen, and a strange one for none", () => {
  expect(routeFromPath("/")).toEqual({ name: "jobs" });
  expect(routeFromPath("/job/a")).toEqual({ name: "job", job: "a" });
  expect(routeFromPath("/room/a")).toEqual({ name: "room", room: "a", step: null });
  expect(routeFromPath("/room/a/rails")).toEqual({ name: "room", room: "a", step: "rails" });
  for (const strange of ["/room", "/room/a/attic", "/what"]) expect(routeFromPath(strange)).toEqual({ name: "missing" });
});

test("the top steps to whole eighths, from between them and from on them", () => {
  expect(steppedHeight(10 * EIGHTH, 1, EIGHTH)).toBeCloseTo(11 * EIGHTH, 9);
  expect(steppedHeight(10.4 * EIGHTH, 1, EIGHTH)).toBeCloseTo(11 * EIGHTH, 9);
  expect(steppedHeight(10.4 * EIGHTH, -1, EIGHTH)).toBeCloseTo(10 * EIGHTH, 9);
  expect(steppedHeight(-3, -1, 2)).toBe(-4);
});

test("closing the walk turns the last corner so that the figure is whole", () => {
  const walls = [90, 90, 90, -90, 90, 0].map((turn) => ({ length: 1000, turn }));
  const closed = closedWalls(walls);
  expect(closed).toHaveLength(6);
  expect(walkOf(closed).heading).toBe(360);
  expect([tidyTurn(270), tidyTurn(-270), tidyTurn(180), tidyTurn(-180), tidyTurn(0)]).toEqual([-90, 90, 180, 180, 0]);
});

test("a new part takes the first free name", () => {
  expect(nextName("D", [])).toBe("D1");
  expect(nextName("D", ["D1", "D3"])).toBe("D2");
});

function rail(id: string, count: number): Rail {
  const stations = Array.from({ length: count }, (_, index) => ({ at: [index, 0] as const, along: index, subfloor: 0, top: 30, shim: 4 + index }));
  return { id, from: [0, 0], to: [count, 0], stations, settings: [] };
}

test("rails are set station by station, and what was left out comes round again", () => {
  const standings = standingsOf([rail("A", 2), rail("B", 2)]);
  expect(standings.map(({ key }) => key)).toEqual(["A:0", "A:1", "B:0", "B:1"]);
  expect(inHand(standings, new Set(), null)?.key).toBe("A:0");
  expect(inHand(standings, new Set(["A:0"]), null)?.key).toBe("A:1");
  expect(afterwards(standings, new Set(["A:1", "B:0"]), "B:1")?.key).toBe("A:0");
  expect(inHand(standings, new Set(["A:0", "A:1", "B:0", "B:1"]), null)).toBeNull();
});

const ROOM = { outline: { vertices: [[0, 0], [3000, 0], [3000, 2000], [0, 2000]] as const } };
const PLACES = proposedPlaces(ROOM.outline.vertices, []);

function readingAt(index: number): Row<"reading"> {
  const fields = { at: PLACES[index] ?? null, down: 1000 };
  return { kind: "reading", id: `r${index}`, fields, sequence: 0, waiting: 1, conflicts: {} };
}

test("the round goes on to the next place as soon as a reading is taken, saved or still on its way", () => {
  expect(roundOf(ROOM, [], [], undefined).current).toEqual(PLACES[0]);
  expect(roundOf(ROOM, [readingAt(0)], [], undefined).current).toEqual(PLACES[1]);
  expect(roundOf(ROOM, [], PLACES.slice(0, 2), undefined).current).toEqual(PLACES[2]);
  expect(roundOf(ROOM, [readingAt(3)], [], undefined).current).toEqual(PLACES[4]);
});

test("a place the person chose comes first, and a place left out comes at the end", () => {
  expect(roundOf(ROOM, [], [], "[500,500]").current).toEqual([500, 500]);
  const all = PLACES.map((_, index) => readingAt(index)).filter((_, index) => index !== 2);
  expect(roundOf(ROOM, all, [], undefined).current).toEqual(PLACES[2]);
  expect(roundOf(ROOM, [...all, readingAt(2)], [], undefined).current).toBeNull();
});
