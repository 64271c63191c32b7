import { expect, test } from "vitest";
import { walkOf } from "../../src/drawing/figure";
import { pathOfRails, RAIL_PARTS, routeFromPath } from "../../src/screens/common/route";
import { steppedHeight } from "../../src/screens/bed/steps";
import { nextName } from "../../src/screens/outline/names";
import { closedWalls, tidyTurn } from "../../src/screens/outline/walkedWalls";
import { afterwards, inHand, standingsOf } from "../../src/screens/rails/stations";
import type { Rail } from "../../src/wire";

const EIGHTH = 25.4 / 8;

test("every address stands for one screen, and a strange one for none", () => {
  expect(routeFromPath("/")).toEqual({ name: "jobs" });
  expect(routeFromPath("/job/a")).toEqual({ name: "job", job: "a" });
  expect(routeFromPath("/room/a")).toEqual({ name: "room", room: "a", step: null });
  expect(routeFromPath("/room/a/rails")).toEqual({ name: "room", room: "a", step: "rails" });
  for (const part of RAIL_PARTS) expect(routeFromPath(pathOfRails("a", part))).toEqual({ name: "rails", room: "a", part });
  for (const strange of ["/room", "/room/a/attic", "/room/a/rails/attic", "/what"]) expect(routeFromPath(strange)).toEqual({ name: "missing" });
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
