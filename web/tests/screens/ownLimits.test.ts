/** The company's own limits: what can be asked for, and what one more begins with. */
import { expect, test } from "vitest";
import { freshLimit, isOutOfRange, OWN_RANGE } from "../../src/screens/checking/standards";
import type { GapLimit } from "../../src/wire";

test("what no straightedge and no gap can be is out of range", () => {
  expect([0, -1, 49.9, 30_001].map((value) => isOutOfRange("length", value))).toEqual([true, true, true, true]);
  expect([0, -1, 0.09, 501].map((value) => isOutOfRange("gap", value))).toEqual([true, true, true, true]);
  expect([50, 2000, 30_000].map((value) => isOutOfRange("length", value))).toEqual([false, false, false]);
  expect([0.1, 3, 500].map((value) => isOutOfRange("gap", value))).toEqual([false, false, false]);
});

test("one limit more is always one that can be asked for", () => {
  let own: readonly GapLimit[] = [];
  for (let n = 0; n < 20; n += 1) own = freshLimit(own);
  expect(own.slice(0, 2)).toEqual([{ length: 2000, gap: 3 }, { length: 1000, gap: 1.5 }]);
  expect(own.filter(({ length, gap }) => isOutOfRange("length", length) || isOutOfRange("gap", gap))).toEqual([]);
  expect(own.at(-1)).toEqual({ length: OWN_RANGE.length.least, gap: OWN_RANGE.gap.least });
});
