import { describe, expect, test } from "vitest";
import { comparedOf, differenceText, effectsOf, watchedOf, type Designed } from "../../src/screens/bed/effects";
import { heightOfTop, isGiven, lowestTop, movedTop } from "../../src/screens/bed/moved";
import { topName } from "../../src/screens/bed/names";
import { planUnder } from "../../src/screens/bed/useTrial";
import { conflictOf } from "../../src/screens/bed/kinds/relief";
import type { Plan, Problem, Top } from "../../src/wire";

const FEET = { units: "imperial", language: "en" } as const;
const SQUARE = [[0, 0], [1000, 0], [1000, 1000], [0, 1000]] as const;

interface Told {
  readonly least?: number;
  readonly bags?: number;
  readonly steps?: readonly (number | null)[];
  readonly total?: number | null;
}

/** As the engine answers, as far as these screens look at it. */
function designed({ least = 30, bags = 4, steps = [], total = null }: Told = {}): Designed {
  const bed = {
    top: [{ a: 40, b: -0.02, c: 0, polygon: SQUARE }],
    thickness: { min: least, max: 60, mean: 45 }, volume: 0.4, mass: 800, load: { max: 120 },
    doorways: steps.map((worst_step, n) => ({ id: `D${n}`, worst_step })), fixtures: [],
  };
  const materials = [{ item: "sand", packages: null }, { item: "cement", packages: bags }];
  return { bed, materials, quote: { total, currency: "$" }, explanations: {}, cautions: [] } as unknown as Designed;
}

const TOPS: readonly Top[] = [
  { kind: "level", height: 12 },
  { kind: "plane", through: [[0, 0, 12], [9, 0, 20]] },
  { kind: "two_levels", line: [[0, 0], [1, 0]], left: 12, right: 30, ramp: 100 },
  { kind: "to_drain", drain: "F1", fall: 0.02, perimeter: 12 },
];

describe("a top is moved as a whole", () => {
  test.each(TOPS)("$kind moves by what the thumb moves, and back to where it was", (top) => {
    const moved = movedTop(top, 12, 15);
    expect(moved && heightOfTop(moved, null)).toBe(15);
    expect(moved && movedTop(moved, 15, 12)).toEqual(top);
  });

  test("the slope of a plane and the step between two levels stay as they are", () => {
    const [, plane, levels] = TOPS.map((top) => movedTop(top, 12, 10));
    expect(plane).toEqual({ kind: "plane", through: [[0, 0, 10], [9, 0, 18]] });
    expect(levels).toMatchObject({ left: 10, right: 28 });
  });

  test("the least mortar finds its own height and is not moved", () => {
    const least: Top = { kind: "least_mortar", holds: [], largest_fall: null };
    expect([heightOfTop(least, null), movedTop(least, 0, 1), lowestTop(least)]).toEqual([null, null, null]);
  });

  test("a top left to its lowest takes its height from the bed, a falling one that of the walls", () => {
    const bed = designed().bed;
    const lowest = TOPS.map(lowestTop);
    expect(lowest.map((top) => top && isGiven(top))).toEqual([false, null, null, false]);
    expect(lowest.map((top) => top && heightOfTop(top, bed))).toEqual([40, null, null, 40]);
    expect(heightOfTop({ kind: "level", height: null }, null)).toBeNull();
  });
});

describe("what is watched while the height moves", () => {
  test("the worst step is that of the doorway that has it, up or down", () => {
    const watched = watchedOf(designed({ steps: [3, null, -14, 8] }), false);
    expect(watched.map(({ id }) => id)).toEqual(["thinnest", "thickest", "step-D2", "bags", "mass", "load"]);
    expect(watched[2]?.path).toBe("bed.doorways[2].worst_step");
  });

  test("without a known step the mean thickness stands in its place", () => {
    expect(watchedOf(designed({ steps: [null] }), false)[2]?.id).toBe("mean");
  });

  test("money is shown to whoever may see it and only where there is a price", () => {
    expect(watchedOf(designed({ total: 420 }), true).at(-1)).toMatchObject({ id: "money", value: 420 });
    expect(watchedOf(designed({ total: 420 }), false).at(-1)?.id).toBe("load");
    expect(watchedOf(designed(), true).at(-1)?.id).toBe("load");
    expect(comparedOf(designed({ total: 420 }), false).some(({ id }) => id === "money")).toBe(false);
  });

  test("a difference says which way, and nothing where there is none or one side is not known", () => {
    const [now, before] = [designed({ least: 30 + 25.4 / 8, bags: 3, steps: [null] }), designed({ steps: [4] })].map((one) => effectsOf(one, true));
    const told = (id: string) => {
      const effect = now?.find((one) => one.id === id);
      return effect && differenceText(effect, before?.find((one) => one.id === id), FEET);
    };
    expect(["thinnest", "bags", "thickest", "step-D0", "money"].map(told)).toEqual(["+1/8″", "−1", "", "", ""]);
  });

  test("the rounding of a sum is no difference", () => {
    const [before] = effectsOf(designed(), true).filter(({ id }) => id === "mass");
    if (before?.value == null) throw new Error("a bed weighs something");
    expect(differenceText({ ...before, value: before.value - 1e-9 * before.value }, before, FEET)).toBe("");
    expect(differenceText({ ...before, value: before.value * 1.5 }, before, FEET)).toMatch(/^\+\d/);
  });
});

test("a top is called by its kind and, where it has one, its height", () => {
  expect(topName({ kind: "level", height: 25.4 }, null)).toBe("Level, +1″");
  expect(topName({ kind: "least_mortar", holds: [] }, null)).toBe("Least mortar");
});

test("a plan under a tried top tells of that bed, and keeps what a top does not touch", () => {
  const own = designed();
  const caution = (where: string, code: string) => ({ where, code, text: "", values: {} });
  const plan = { ...own, cautions: [caution("bed.load", "old"), caution("rails", "rail")], explanations: { "rails[0]": 1 }, rails: [] } as unknown as Plan;
  const tried = { ...designed({ least: 20 }), cautions: [caution("bed.load", "new")] } as unknown as Designed;
  const under = planUnder(plan, tried);
  expect(under.bed.thickness.min).toBe(20);
  expect(under.cautions.map(({ code }) => code)).toEqual(["new", "rail"]);
  expect(under.explanations).toHaveProperty(["rails[0]"]);
  expect(planUnder(plan, null)).toBe(plan);
});

test("a conflict is known by its code, and a code that is newer than this screen is not", () => {
  const of = (code: string) => conflictOf({ code, path: "", values: {}, message: "" } satisfies Problem);
  expect(["top_conflict_minimum", "top_conflict_held_high_stuck", "top_conflict_moon"].map(of)).toEqual(["minimum", "held_high_stuck", null]);
});
