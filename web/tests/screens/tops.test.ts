import { describe, expect, test } from "vitest";
import { begunTop, lineAlongWall, TOP_KINDS } from "../../src/screens/bed/kinds/begin";
import { begunHold, heldAt, holdPlaces, kindOfHold, withHold } from "../../src/screens/bed/kinds/holds";
import { reliefFor } from "../../src/screens/bed/kinds/relief";
import { fallFromTyped, fallText } from "../../src/units";
import type { Fields, Problem, Top } from "../../src/wire";

type Corner = readonly [number, number];
const CORNERS: readonly Corner[] = [[0, 0], [4000, 0], [4000, 3000], [0, 3000]];
const ROOM: Fields<"room"> = {
  outline: { vertices: CORNERS },
  openings: [{ id: "D1", wall: 0, from: 500, to: 1300, adjoining_height: 12 }, { id: "D2", wall: 2, from: 500, to: 1300 }],
  fixtures: [{ id: "F1", kind: "post", at: [500, 500] }, { id: "F2", kind: "drain", at: [2000, 1500], height: -20 }],
};
const BARE: Fields<"room"> = { outline: { vertices: CORNERS } };

function left([[ax, ay], [bx, by]]: readonly [Corner, Corner], [x, y]: Corner): boolean {
  return (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0;
}

describe("how a kind of top begins", () => {
  test("every kind has a beginning in a room with a drain, and all but the fall in a room without", () => {
    expect(TOP_KINDS.map((kind) => begunTop(kind, ROOM, 40)?.kind)).toEqual(TOP_KINDS);
    expect(TOP_KINDS.filter((kind) => begunTop(kind, BARE, 40) === null)).toEqual(["to_drain"]);
  });

  test("the least mortar meets every doorway whose floor beyond is known, and no other", () => {
    expect(begunTop("least_mortar", ROOM, 40)).toMatchObject({ holds: [{ opening: "D1" }] });
  });

  test.each([["anticlockwise", CORNERS], ["clockwise", [...CORNERS].reverse()]])("the wall lies to the left of its line, corners told %s", (_, corners) => {
    corners.forEach((from, n) => {
      const to = corners[(n + 1) % corners.length] ?? from;
      const line = lineAlongWall(corners, n, 500);
      expect(left(line, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2])).toBe(true);
      expect(left(line, [2000, 1500])).toBe(false);
    });
  });
});

describe("what is held where", () => {
  test("doorways and drains can be held, posts cannot", () => {
    expect(holdPlaces(ROOM).map(({ id, there }) => [id, there])).toEqual([["D1", 12], ["D2", null], ["F2", -20]]);
  });

  test("a hold chosen, changed and let go leaves the others alone", () => {
    const [hall, yard, drain] = holdPlaces(ROOM);
    if (!hall || !yard || !drain) throw new Error("three places");
    const two = withHold(withHold([], hall, begunHold(hall, "meet", 0)), yard, begunHold(yard, "between", 7));
    expect(two).toEqual([{ opening: "D1" }, { opening: "D2", low: 7, high: 7 }]);
    expect([hall, yard, drain].map((place) => kindOfHold(heldAt(two, place)))).toEqual(["meet", "between", "free"]);
    expect(withHold(two, hall, begunHold(hall, "free", 0))).toEqual([{ opening: "D2", low: 7, high: 7 }]);
    expect(begunHold(drain, "between", 99)).toEqual({ fixture: "F2", low: -20, high: -20 });
  });
});

describe("what a tap lets give", () => {
  const top: Top = { kind: "least_mortar", holds: [{ opening: "D2", low: 3, high: 8 }, { opening: "D1" }], largest_fall: 0.01 };
  const problem = (code: string, path: string, values: Problem["values"]): Problem => ({ code, path, values, message: "" });

  test("limits of thickness give as far as alone is needed", () => {
    expect(reliefFor(problem("top_conflict_minimum", "bed.minimum_thickness", { alone: 4, limit: 30 }), top)?.["bed.minimum_thickness"]).toBeCloseTo(26, 4);
    expect(reliefFor(problem("top_conflict_maximum", "bed.maximum_thickness", { alone: 4, limit: 50 }), top)?.["bed.maximum_thickness"]).toBeCloseTo(54, 4);
  });

  test("a hold gives on the side that is in the way and keeps its other side", () => {
    const low = reliefFor(problem("top_conflict_held_low", "bed.top.holds[0]", { alone: 2, limit: 3 }), top);
    const met = reliefFor(problem("top_conflict_held_high", "bed.top.holds[1]", { alone: 5, limit: 12 }), top);
    expect(low?.["bed.top"]).toMatchObject({ holds: [{ opening: "D2", low: expect.closeTo(1, 4) as number, high: 8 }, { opening: "D1" }] });
    expect(met?.["bed.top"]).toMatchObject({ holds: [{}, { opening: "D1", low: 12, high: expect.closeTo(17, 4) as number }] });
  });

  test("the fall grows, and what cannot help alone offers nothing", () => {
    expect(reliefFor(problem("top_conflict_fall", "bed.top.largest_fall", { alone: 0.002, limit: 0.01 }), top)?.["bed.top"]).toMatchObject({ largest_fall: expect.closeTo(0.012, 5) as number });
    expect(reliefFor(problem("top_conflict_held_low_stuck", "bed.top.holds[0]", { together: 2, limit: 3 }), top)).toBeNull();
  });
});

test("a fall is read as it is typed: inches in a foot, or percent", () => {
  const [feet, metric] = [{ units: "imperial", language: "en" }, { units: "metric", language: "es" }] as const;
  expect(fallText(1 / 48, feet)).toBe("1/4″/ft");
  expect(fallText(0.02, metric)).toBe("2\u202f%");
  expect(fallFromTyped(25.4 / 4, feet)).toBeCloseTo(1 / 48, 12);
  expect(fallFromTyped(2, metric)).toBe(0.02);
});
