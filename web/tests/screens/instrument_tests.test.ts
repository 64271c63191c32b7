import { beforeEach, expect, test } from "vitest";
import { foundText, TEST_STEPS, testFrom, testsFor, tiltOf, type TestKind } from "../../src/screens/levels/tests";
import { reader } from "../../src/words";

beforeEach(() => { reader.value = { units: "metric", language: "en" }; });

function given(kind: TestKind, ...values: readonly number[]) {
  const steps = TEST_STEPS[kind];
  return testFrom(kind, Object.fromEntries(values.map((mm, index) => [steps[index]?.name ?? "", { mm, typed: `${mm}` }])));
}

test("a line that rises reads too much of the farther peg", () => {
  // From the middle B is 100 lower; from 2 m beyond B, with A 22 m away, a rise of 0.5 mm a metre adds 11 and 1.
  const found = given("two_peg", 1400, 1500, 1311, 1401, 22_000, 2000);
  expect(found).toMatchObject({ kind: "two_peg", first: [1400, 1500], second: [1311, 1401], sights: [22_000, 2000] });
  expect(found && tiltOf(found)).toBeCloseTo(0.5, 12);
  expect(found && foundText(found)).toBe("The line rises 0.5\u202fmm in 1000\u202fmm.");
});

test("half the difference of a flip is the level's own: gaps too large ahead mean a line that rises", () => {
  const found = given("flip", 5, 1, 2000);
  expect(found).toEqual({ kind: "flip", off: -5, reversed_off: -1, length: 2000 });
  expect(found && tiltOf(found)).toBeCloseTo(1, 12);
  const other = given("flip", -1, 3, 2000);
  expect(other && foundText(other)).toBe("The line falls 1\u202fmm in 1000\u202fmm.");
});

test("what a rod reads beyond the tape it reads too much", () => {
  expect(given("rod", 1503, 1500)).toEqual({ kind: "rod", offset: 3 });
  const less = given("rod", 1498, 1500);
  expect(less && foundText(less)).toBe("The rod reads 2\u202fmm too little.");
});

test("no error is told as none, and nothing is told of equal sights, of no length, or half way", () => {
  const sound = given("flip", 3, 3, 2000);
  expect(sound && foundText(sound)).toBe("The line is true.");
  expect(given("two_peg", 1, 2, 3, 4, 5000, 5000)).toBeNull();
  expect(given("flip", 3, 1, 0)).toBeNull();
  expect(given("flip", 3, 1)).toBeNull();
});

test("each instrument is offered the tests that suit it", () => {
  expect(testsFor("straightedge")).toEqual(["flip"]);
  expect(testsFor("laser")).toEqual(["two_peg", "rod"]);
  expect(testsFor("water_level")).toEqual(["rod"]);
});
