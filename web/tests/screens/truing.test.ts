import { expect, test } from "vitest";
import { arrowTo, isTurned } from "../../src/screens/rails/true/arrows";
import { amountText, byRail, endArrow, movesOf, mudText, placeOf, unreadIn } from "../../src/screens/rails/true/correcting";
import {
  checkFrom, endsOf, enteredFrom, highEnd, isTooMuch, laidAcross, laidAlong, laidByTap, lengthOver, NOTHING, offFrom, wrongPlace, type Entered,
} from "../../src/screens/rails/true/reading";
import { reader } from "../../src/words";
import type { Correction, Rail } from "../../src/wire";

function rail(id: string, from: readonly [number, number], to: readonly [number, number]): Rail {
  return { id, from, to, strip: { thickness: 25.4, width: 38.1, length: 2438.4 }, stations: [], settings: [], ramp_volume: 0 };
}

const A = rail("A", [0, 0], [0, 4000]);
const B = rail("B", [1500, 4000], [1500, 0]); // begins where A ends
const RAILS = [A, B];
const ALONG: Entered = { ...NOTHING, level: "1", ...laidAlong(A, 2000, 1200) };

test("a level is laid about the place that was touched, and never past the rail", () => {
  expect(laidAlong(A, 2000, 1200)).toEqual({ rail: "A", railTo: "", from: 1400, to: 2600 });
  expect(laidAlong(A, 100, 1200)).toMatchObject({ from: 0, to: 1200 });
  expect(laidAlong(A, 3900, 1200)).toMatchObject({ from: 2800, to: 4000 });
  expect(laidAlong(A, 3900, 9000)).toMatchObject({ from: 0, to: 4000 });
});

/** 6 m of a strip of 2.4 m, laid from its end on. */
const LONG: Rail = {
  ...rail("L", [0, 0], [0, 6000]),
  stations: [0, 4200, 6000].map((along) => ({ at: [0, along], along, subfloor: 0, top: 0, shim: 20, sixteenths: 13, millimetres: 20, is_break: false })),
  settings: [[3600, 6000], [1800, 4200], [0, 2400]].map(([from = 0, to = 0], n) => ({ order: n + 1, from, to, stations: [], overlap: 600, strip: null })),
};

test("a level is laid on one lie of the strip, never over two", () => {
  expect(laidAlong(LONG, 5900, 1200)).toMatchObject({ from: 4800, to: 6000 });
  expect(laidAlong(LONG, 3950, 1200)).toMatchObject({ from: 3600, to: 4800 });
  expect(laidAlong(LONG, 3850, 1200)).toMatchObject({ from: 3000, to: 4200 });
  expect(laidAlong(LONG, 3000, 9000)).toMatchObject({ from: 1800, to: 4200 });
});

test("what is corrected is the strip as it lies: its ends are drawn, and it is told which lie was bedded anew", () => {
  reader.value = { units: "metric", language: "en" };
  const second = { ...correction("L", "to", 4, 0), lie: 2, station: 1 };
  expect(placeOf({ rails: [LONG] }, second)).toEqual([0, 4200]);
  expect(placeOf({ rails: RAILS }, correction("A", "to", 4, 0))).toEqual([0, 4000]);
  expect(byRail({ rails: [LONG], corrections: [second] }).map(movesOf)).toEqual([{ rail: "L", lie: 2, from_raise: 0, to_raise: 6 }]);
});

test("a second rail takes the other end of the level; the first one again lays it along", () => {
  const across = laidByTap(ALONG, RAILS, B, 2500, 1200);
  expect(across).toMatchObject({ rail: "A", railTo: "B", from: 2000, to: 2500 });
  expect(laidByTap(across, RAILS, A, 3000, 1200)).toMatchObject({ rail: "A", railTo: "", from: 2400, to: 3600 });
  expect(laidByTap(NOTHING, RAILS, B, 600, 1200)).toMatchObject({ rail: "B", railTo: "", from: 0, to: 1200 });
});

test("across to the nearest place is square to rails that run side by side, whichever way they begin", () => {
  const across = laidAcross(A, 1000, B);
  expect(across).toEqual({ rail: "A", railTo: "B", from: 1000, to: 3000 });
  expect(endsOf(across, RAILS)).toEqual([[0, 1000], [1500, 1000]]);
});

test("what the level shows has the sign of its second end, read by the bubble or by the gap", () => {
  expect(offFrom(3, "bubble", "to")).toBe(3);
  expect(offFrom(3, "bubble", "from")).toBe(-3);
  expect(offFrom(3, "gap", "to")).toBe(-3); // the end that had to be lifted is the low one
  expect(offFrom(3, "gap", "from")).toBe(3);
  expect(offFrom(3, "gap", "")).toBeNull();
  expect(offFrom(0, "bubble", "")).toBe(0);
  expect([2, -2, 0].map(highEnd)).toEqual(["to", "from", null]);
});

test("a bubble is read over the level's length, a gap over what lies between the two ends", () => {
  const across: Entered = { ...ALONG, ...laidAcross(A, 1000, B) };
  expect(lengthOver(across, RAILS, 1200)).toBe(1200);
  expect(lengthOver({ ...across, over: 600 }, RAILS, 1200)).toBe(600);
  expect(lengthOver({ ...across, way: "gap", over: 600 }, RAILS, 1200)).toBe(1500);
});

test("places beyond a rail, on one that is gone, or on one another are told", () => {
  expect(wrongPlace(ALONG, RAILS)).toBeNull();
  expect(wrongPlace({ ...ALONG, to: 4000 }, RAILS)).toBeNull();
  expect(wrongPlace({ ...ALONG, to: 4001 }, RAILS)).toBe("beyond");
  expect(wrongPlace({ ...ALONG, from: -1 }, RAILS)).toBe("beyond");
  expect(wrongPlace({ ...ALONG, to: ALONG.from + 50 }, RAILS)).toBe("same_place");
  expect(wrongPlace({ ...ALONG, railTo: "Z" }, RAILS)).toBe("no_rail");
  expect([isTooMuch(120, 1200), isTooMuch(121, 1200)]).toEqual([false, true]);
});

test("a reading is kept whole, turned round or not, and is entered again as it was kept", () => {
  expect(checkFrom(ALONG, 1200)).toBeNull();
  const check = checkFrom({ ...ALONG, off: 3, back: -1, typed: { off: "1/8", reversed_off: "1/16" } }, 1200);
  expect(check).toEqual({ rail: "A", rail_to: null, from: 1400, to: 2600, off: 3, reversed_off: -1, length: 1200, level: "1", typed: { off: "1/8", reversed_off: "1/16" } });
  expect(enteredFrom("x", check ?? {})).toMatchObject({ id: "x", rail: "A", railTo: "", from: 1400, to: 2600, off: 3, back: -1, over: 1200 });
});

test("arrows point as the drawing does: up is away from the foot of the page", () => {
  expect([[1, 0], [1, 1], [0, 1], [-1, 1], [-1, 0], [-1, -1], [0, -1], [1, -1]].map(([x = 0, y = 0]) => arrowTo([0, 0], [x, y])).join("")).toBe("\u2192\u2197\u2191\u2196\u2190\u2199\u2193\u2198");
  expect(arrowTo([2, 2], [2, 2])).toBe("");
  expect([endArrow(A, "to"), endArrow(A, "from"), endArrow(B, "to")]).toEqual(["\u2191", "\u2193", "\u2193"]);
  expect([isTurned([0, 0], [9, 0]), isTurned([9, 0], [0, 0]), isTurned([0, 0], [0, 9]), isTurned([0, 9], [0, 0])]).toEqual([false, true, true, false]);
});

function correction(rail_: string, end: "from" | "to", sixteenths: number, mortar: number): Correction {
  return { check: "c", rail: rail_, lie: 1, station: 0, end, raise: sixteenths * 1.5875, sixteenths, thirty_seconds: sixteenths * 2, millimetres: Math.round(sixteenths * 1.5875), mortar };
}

test("a rail is bedded anew by what was told for both its ends, in the amounts that were told", () => {
  reader.value = { units: "imperial", language: "en" };
  const plan = { rails: RAILS, corrections: [correction("B", "to", 3, 6e-4), correction("A", "from", -2, -1e-4), correction("B", "from", -1, -1e-4)] };
  const all = byRail(plan);
  expect(all.map(({ rail: { id }, corrections }) => [id, corrections.map(({ number }) => number)])).toEqual([["B", [0, 2]], ["A", [1]]]);
  expect(amountText({ ...correction("B", "to", -3, 0), thirty_seconds: -7 })).toBe("7/32\u2033");
  const inInches = all.map(movesOf).map(({ rail: id, from_raise: from, to_raise: to }) => [id, Math.round(from * 1e6) / 1e6, Math.round(to * 1e6) / 1e6]);
  expect(inInches).toEqual([["B", -1.5875, 4.7625], ["A", -3.175, 0]]);
  reader.value = { units: "metric", language: "en" };
  expect(all.map(movesOf)[0]).toEqual({ rail: "B", lie: 1, from_raise: -2, to_raise: 5 });
  expect(amountText(correction("B", "to", -3, 0))).toBe("5\u202fmm");
});

test("mortar is told by volume and by the handful, to add or to shave off", () => {
  reader.value = { units: "metric", language: "en" };
  expect(mudText(correction("A", "to", 3, 5e-4))).toBe("Add about 0.5\u202fL of mortar: 2 handfuls.");
  expect(mudText(correction("A", "to", -3, -2.5e-4))).toBe("Shave off about 0.25\u202fL of mortar: 1 handful.");
  reader.value = { units: "imperial", language: "es" };
  expect(mudText(correction("A", "to", 1, 8.193532e-5))).toBe("Agregue unos 5\u202fin³ de mortero: menos de un puñado.");
});

test("rails that no reading tells of are named, so that nothing is corrected before they were read", () => {
  const told = (id: string, checks: number) => ({ rail: id, lie: 1, from_off: 0, to_off: 0, sigma: 1, checks, from_after: 0, to_after: 0 });
  const truing = { tolerance: 1, is_good_enough: false, worst: 0, worst_after: 0, rails: [told("A", 2), told("B", 0)], checks: [], levels: [], next_check: null };
  expect(unreadIn({ truing })).toEqual(["B"]);
  expect(unreadIn({ truing: null })).toEqual([]);
});
