import { expect, test } from "vitest";
import { cutAt, sectionOf } from "../../src/screens/profile/section";
import { drawnLine, strokeOf } from "../../src/screens/profile/useProfile";
import { chanceText, toldChance } from "../../src/screens/bed/chance";
import type { ProfileAnswer } from "../../src/wire";

const point = (along: number, subfloor: number, top = 40) => ({ along, at: [along, 0] as [number, number], subfloor, top, thickness: top - subfloor, estimated: false });
const ANSWER: ProfileAnswer = { length: 3000, runs: [[point(200, 0), point(1000, 10)], [point(1500, -5), point(2800, 5)]] };
const WINDOW = { width: 340, height: 150 };

test("between two places of a run the floor is straight, and in a gap there is none", () => {
  expect(cutAt(ANSWER, 600)).toEqual({ subfloor: 5, top: 40, thickness: 35 });
  expect(cutAt(ANSWER, 200)?.subfloor).toBe(0);
  expect(cutAt(ANSWER, 2800)?.thickness).toBe(35);
  for (const along of [0, 199, 1200, 2900]) expect(cutAt(ANSWER, along)).toBeNull();
});

test("heights are drawn a round number of times as large, as large as the window allows, and nothing leaves it", () => {
  const { times, at, alongAt } = sectionOf(ANSWER, WINDOW);
  expect(times).toBe(20);
  for (const { along, subfloor, top } of ANSWER.runs.flat()) {
    for (const z of [subfloor, top]) {
      const [x, y] = at(along, z);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(WINDOW.width);
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThanOrEqual(WINDOW.height);
    }
  }
  const [low, high] = [at(0, 0), at(0, 10)];
  const [left, right] = [at(0, 0), at(10, 0)];
  expect((low[1] - high[1]) / (right[0] - left[0])).toBeCloseTo(times, 9);
  expect(alongAt(at(1234, 0)[0])).toBeCloseTo(1234, 6);
  expect([alongAt(-50), alongAt(1e6)]).toEqual([0, 3000]);
});

test("a floor much steeper than any is drawn true, not squeezed", () => {
  expect(sectionOf({ length: 100, runs: [[point(0, 0), point(100, 900, 1000)]] }, WINDOW).times).toBe(1);
});

test("a stroke from an end of the line moves that end; any other draws a new one", () => {
  const line = { from: [0, 0], to: [1000, 0] } as const;
  expect(strokeOf(line, [990, 5], 30)).toBe("to");
  expect(strokeOf(line, [5, 5], 30)).toBe("from");
  expect(strokeOf(line, [500, 0], 30)).toBe("new");
  expect(strokeOf(null, [0, 0], 30)).toBe("new");
  expect(drawnLine(line, "to", [990, 5], [900, 700])).toEqual({ from: [0, 0], to: [900, 700] });
  expect(drawnLine(line, "from", [5, 5], [100, 50])).toEqual({ from: [100, 50], to: [1000, 0] });
  expect(drawnLine(line, "new", [500, 0], [500, 500])).toEqual({ from: [500, 0], to: [500, 500] });
});

test("a chance is told in words: one in so many, tenths, almost certain, hardly", () => {
  const said = (probability: number) => chanceText({ by: 3.175, probability });
  expect(said(0.125)).toContain("1 chance in 8 ");
  expect(said(0.58)).toContain("6 chances in 10 ");
  expect(said(0.97)).toContain("Almost certainly");
  expect(said(0.004)).toContain("Less than 1 chance in 100 ");
  expect(said(0.125)).toContain("1/8\u2033");
});

test("the chance told first is that of the least amount that matters", () => {
  const chances = [1, 2, 3, 5].map((by) => ({ by, probability: 1 / (by + 1) }));
  expect(toldChance(chances)?.by).toBe(3);
  expect(toldChance(chances.slice(0, 2))?.by).toBe(2);
  expect(toldChance([])).toBeNull();
});
