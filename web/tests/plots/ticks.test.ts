import { afterEach, expect, test } from "vitest";
import { roundStep, roundTicks, timeTicks } from "../../src/plots/ticks";

const OWN_ZONE = process.env["TZ"];
afterEach(() => { if (OWN_ZONE === undefined) delete process.env["TZ"]; else process.env["TZ"] = OWN_ZONE; });

test("a step is 1, 2 or 5 times a power of ten, the least that needs no more steps than allowed", () => {
  expect(roundStep(10, 5)).toBe(2);
  expect(roundStep(10, 4)).toBe(5);
  expect(roundStep(0.3, 3)).toBeCloseTo(0.1, 12);
  for (const span of [0.013, 0.7, 3, 19, 123, 4567]) {
    for (const most of [2, 3, 4, 5, 8]) {
      const step = roundStep(span, most);
      expect(span / step).toBeLessThanOrEqual(most + 1e-6);
      expect([1, 2, 5].some((times) => Math.abs(Math.log10(step / times) - Math.round(Math.log10(step / times))) < 1e-9)).toBe(true);
    }
  }
});

test("marks begin at or below the least figure and end at or above the greatest", () => {
  for (const [low, high] of [[-7.3, 22.1], [0, 1.02], [31.9, 32.1], [5, 5]] as const) {
    const ticks = roundTicks(low, high, 5);
    expect(ticks[0]).toBeLessThanOrEqual(low + 1e-9);
    expect(ticks.at(-1)).toBeGreaterThanOrEqual(high - 1e-9);
    expect(ticks.length).toBeGreaterThanOrEqual(2);
  }
});

test("a few hours have marks at whole hours of the wall's clock, a week has midnights", () => {
  process.env["TZ"] = "America/Chicago";
  const from = new Date(2026, 5, 1, 7, 20).getTime();
  const hours = timeTicks(from, from + 8 * 3_600_000, 3).map(({ at }) => new Date(at).getHours());
  expect(hours).toEqual([9, 12, 15]);
  const days = timeTicks(from, from + 7 * 86_400_000, 7);
  expect(days.map(({ at }) => new Date(at).getDate())).toEqual([2, 3, 4, 5, 6, 7, 8]);
  expect(days.every(({ isMidnight }) => isMidnight)).toBe(true);
});

// 8 March 2026, 2:00 and 1 November 2026, 2:00: the rule of the United States (Energy Policy Act of 2005).
test.each([[2026, 2, 7], [2026, 9, 31]])("clocks that change on the next day leave the marks on the hours of the wall", (year, month, day) => {
  process.env["TZ"] = "America/Chicago";
  const ticks = timeTicks(new Date(year, month, day).getTime(), new Date(year, month, day + 3).getTime(), 13);
  expect(ticks.map(({ at }) => new Date(at).getHours())).toEqual([0, 6, 12, 18, 0, 6, 12, 18, 0, 6, 12, 18, 0]);
});

test("an hour that the wall skips has no mark of its own", () => {
  process.env["TZ"] = "America/Chicago";
  const ticks = timeTicks(new Date(2026, 2, 8).getTime(), new Date(2026, 2, 8, 5).getTime(), 24);
  expect(ticks.map(({ at }) => new Date(at).getHours())).toEqual([0, 1, 3, 4, 5]);
});
