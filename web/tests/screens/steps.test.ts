import { expect, test } from "vitest";
import { walkOf } from "../../src/drawing/figure";
import { CHECK_PARTS, pathOfCheck, pathOfRails, RAIL_PARTS, routeFromPath, STEPS } from "../../src/screens/common/route";
import { steppedHeight } from "../../src/screens/bed/steps";
import { nextName } from "../../src/screens/outline/names";
import { closedWalls, tidyTurn } from "../../src/screens/outline/walkedWalls";

const EIGHTH = 25.4 / 8;

test("every address stands for one screen, and a strange one for none", () => {
  expect(routeFromPath("/")).toEqual({ name: "jobs" });
  expect(routeFromPath("/job/a")).toEqual({ name: "job", job: "a" });
  expect(routeFromPath("/room/a")).toEqual({ name: "room", room: "a", step: null });
  expect(routeFromPath("/room/a/rails")).toEqual({ name: "room", room: "a", step: "rails" });
  for (const part of RAIL_PARTS) expect(routeFromPath(pathOfRails("a", part))).toEqual({ name: "rails", room: "a", part });
  for (const part of CHECK_PARTS) expect(routeFromPath(pathOfCheck("a", part))).toEqual({ name: "checking", room: "a", part });
  for (const strange of ["/room", "/room/a/attic", "/room/a/rails/attic", "/room/a/checking/attic", "/what"]) expect(routeFromPath(strange)).toEqual({ name: "missing" });
});

test("the bed is checked after it is filled and before it is waited for", () => {
  expect(STEPS.slice(-3)).toEqual(["filling", "checking", "waiting"]);
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
