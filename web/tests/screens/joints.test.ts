import { describe, expect, test } from "vitest";
import { slabJointFrom } from "../../src/screens/joints/slabJoint";
import { fallsOf, hasFalls, thicknessPieces } from "../../src/screens/common/topLayers";
import type { Facet, Plan } from "../../src/wire";

type Corner = readonly [number, number];
const ROOM: readonly Corner[] = [[0, 0], [6000, 0], [6000, 4000], [0, 4000]];

describe("a joint of the slab from two taps", () => {
  test("runs from wall to wall, square, where a thumb was not exact", () => {
    expect(slabJointFrom(ROOM, [1980, 150], [2050, 3800])).toEqual([[1980, 0], [1980, 4000]]);
  });

  test("ends amid the floor where it was ended there", () => {
    expect(slabJointFrom(ROOM, [100, 2000], [3000, 2080])).toEqual([[0, 2000], [3000, 2000]]);
  });

  test("keeps its slant where it clearly has one", () => {
    const [from, to] = slabJointFrom(ROOM, [1000, 1000], [3000, 3000]) ?? [[0, 0], [0, 0]];
    expect([from, to]).toEqual([[1000, 1000], [3000, 3000]]);
  });

  test("reaches a wall a little beyond it too", () => {
    expect(slabJointFrom(ROOM, [2000, -100], [2000, 4100])).toEqual([[2000, 0], [2000, 4000]]);
  });

  test("is none where both taps are one place", () => {
    expect(slabJointFrom(ROOM, [2000, 2000], [2010, 2020])).toBeNull();
  });
});

const LEFT: Facet = { a: 60, b: -0.01, c: 0, polygon: [[0, 0], [3000, 0], [3000, 4000], [0, 4000]] };
const RIGHT: Facet = { a: 0, b: 0.01, c: 0, polygon: [[3000, 0], [6000, 0], [6000, 4000], [3000, 4000]] };

function planUnder(top: readonly Facet[]): Plan {
  const points = [[0, 0, 0], [6000, 0, 0], [6000, 4000, 0], [0, 4000, 0]];
  return { bed: { top }, outline: { vertices: ROOM }, surface: { points, triangles: [[0, 1, 2], [0, 2, 3]] } } as unknown as Plan;
}

function areaOf(ring: readonly (readonly [number, number, number])[]): number {
  return ring.reduce((sum, [x, y], index) => {
    const [u, v] = ring[(index + 1) % ring.length] ?? [x, y];
    return sum + (x * v - u * y) / 2;
  }, 0);
}

describe("a top of several planes", () => {
  test("shows one crease where they meet and an arrow down each", () => {
    const { creases, falls } = fallsOf(planUnder([LEFT, RIGHT]));
    const ends = creases.map((crease) => crease.map(([x]) => x));
    expect(ends.flat().every((x) => x === 3000)).toBe(true);
    expect(falls.map(({ way }) => way?.map((part) => Math.round(part)))).toEqual([[1, -0], [-1, -0]]);
  });

  test("has no crease between parts of one plane", () => {
    const one = { ...RIGHT, a: LEFT.a, b: LEFT.b };
    expect(fallsOf(planUnder([LEFT, one])).creases).toEqual([]);
  });

  test("has no falls to show where it is level", () => {
    expect(hasFalls(planUnder([{ ...LEFT, b: 0 }]))).toBe(false);
    expect(hasFalls(planUnder([LEFT]))).toBe(true);
    expect(hasFalls(null)).toBe(false);
  });

  test("gives a thickness over each triangle that is linear in every piece, and the pieces are the floor", () => {
    const pieces = thicknessPieces(planUnder([LEFT, RIGHT]));
    expect(pieces.reduce((sum, piece) => sum + areaOf(piece), 0)).toBeCloseTo(6000 * 4000, 3);
    for (const [x, , value] of pieces.flat()) expect(value).toBeCloseTo(x <= 3000 ? 60 - 0.01 * x : 0.01 * x, 6);
  });
});
