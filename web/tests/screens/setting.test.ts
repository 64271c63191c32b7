import { expect, test } from "vitest";
import { numeralOf, sizeOf } from "../../src/screens/rails/hands/numeral";
import { pausing } from "../../src/screens/rails/hands/useHits";
import { notesOf } from "../../src/screens/rails/Hand";
import { roundedMm } from "../../src/screens/common/shims";
import { afterwards, doneIn, inHand, isMoved, movedIn, standingsOf, toldBefore } from "../../src/screens/rails/stations";
import { depthText } from "../../src/units";
import type { LieOfStrip, Rail } from "../../src/wire";
import { reader } from "../../src/words";

interface Lie {
  readonly stations: readonly number[];
  readonly overlap?: number;
  readonly strip?: number;
}

function rail(id: string, shims: readonly number[], lies: readonly Lie[]): Rail {
  const stations = shims.map((shim, index) => ({ at: [index, 0] as const, along: index, subfloor: 0, top: 30, shim, sixteenths: Math.round(shim / 1.5875), millimetres: Math.round(shim), is_break: false }));
  const settings = lies.map((lie, index): LieOfStrip => ({ order: index + 1, from: 0, to: 1, stations: lie.stations, overlap: lie.overlap ?? 0, strip: lie.strip ?? null }));
  return { id, from: [0, 0], to: [shims.length, 0], strip: { thickness: 25.4, width: 38.1, length: 2438.4 }, stations, settings, ramp_volume: 0 };
}

const ONE = [{ stations: [0, 1] }];

test("rails are set station by station, and what was left out comes round again", () => {
  const standings = standingsOf({ rails: [rail("A", [4, 5], ONE), rail("B", [6, 7], ONE)], first_station: { rail: "A", station: 0 } });
  expect(standings.map(({ key }) => key)).toEqual(["A:0", "A:1", "B:0", "B:1"]);
  expect(inHand(standings, new Set(), null)?.key).toBe("A:0");
  expect(inHand(standings, new Set(["A:0"]), null)?.key).toBe("A:1");
  expect(afterwards(standings, new Set(["A:1", "B:0"]), "B:1")?.key).toBe("A:0");
  expect(inHand(standings, new Set(["A:0", "A:1", "B:0", "B:1"]), null)).toBeNull();
});

test("work starts at the least shim, goes on along its rail, then to the rails beside it", () => {
  const rails = [rail("A", [9, 8], ONE), rail("B", [5, 3], ONE), rail("C", [7, 7], [{ stations: [1, 0] }])];
  const standings = standingsOf({ rails, first_station: { rail: "B", station: 1 } });
  expect(standings.map(({ key }) => key)).toEqual(["B:1", "B:0", "C:1", "C:0", "A:0", "A:1"]);
  expect(standings.map(({ isStart }) => isStart)).toEqual([true, false, false, false, false, false]);
});

test("a strip is moved after everything that can be laid before the move; its stations are numbered anew", () => {
  const moved = [{ stations: [4, 3, 2] }, { stations: [2, 1, 0], overlap: 300 }];
  const rails = [rail("A", [9, 8, 7, 6, 5], moved), rail("B", [9, 8, 7, 6, 4], moved)];
  const standings = standingsOf({ rails, first_station: { rail: "B", station: 4 } });
  expect(standings.map(({ key }) => key)).toEqual(["B:4", "B:3", "B:2", "A:4", "A:3", "A:2", "B:1", "B:0", "A:1", "A:0"]);
  expect(standings.map(({ lie, place, places }) => `${lie}: ${place}/${places}`).slice(4, 8)).toEqual(["1: 2/3", "1: 3/3", "2: 1/2", "2: 2/2"]);
  expect(standings.filter(({ begins }) => begins).map(({ key }) => key)).toEqual(["B:1", "A:1"]);
});

test("the strip that lies there is taken from those on hand at the first station of its lie, and said only there", () => {
  reader.value = { units: "imperial", language: "en" };
  const lies = [{ stations: [2, 1], strip: 1 }, { stations: [0], overlap: 300, strip: 0 }];
  const standings = standingsOf({ rails: [rail("A", [2, 8, 7], lies)], first_station: null });
  const strips = [{ thickness: 19.05, length: 1219.2, count: 2 }, { thickness: 25.4, length: 2438.4, count: 1 }];
  const notes = standings.map((standing) => notesOf(standing, { set: new Map(), strips }).join(" "));
  expect(notes).toEqual(["Take a strip 8\u2032\u00a00\u2033 long, 1\u2033 thick.", "", "Take a strip 4\u2032\u00a00\u2033 long, 3/4\u2033 thick."]);
});

test("the least shim under a strip that only a move brings there waits for it", () => {
  const moved = [{ stations: [2, 1] }, { stations: [0], overlap: 300 }];
  const standings = standingsOf({ rails: [rail("A", [2, 8, 7], moved)], first_station: { rail: "A", station: 0 } });
  expect(standings.map(({ key, isStart }) => [key, isStart])).toEqual([["A:2", false], ["A:1", false], ["A:0", false]]);
});

test("after a break of the top nothing waits: both strips are laid before anything is filled", () => {
  const broken = [{ stations: [0, 1] }, { stations: [2], overlap: 0 }];
  const standings = standingsOf({ rails: [rail("A", [5, 6, 7], broken), rail("B", [8, 8, 8], broken)], first_station: { rail: "A", station: 0 } });
  expect(standings.map(({ key }) => key)).toEqual(["A:0", "A:1", "A:2", "B:0", "B:1", "B:2"]);
});

test("every station of every rail comes exactly once, also where no lie names it", () => {
  const standings = standingsOf({ rails: [rail("A", [5, 6, 7, 8], [{ stations: [3, 2] }])], first_station: null });
  expect(standings.map(({ key }) => key).sort()).toEqual(["A:0", "A:1", "A:2", "A:3"]);
  expect(standingsOf({ rails: [], first_station: null })).toEqual([]);
});

const shims = (...heights: readonly number[]) => standingsOf({ rails: [rail("A", heights, [])], first_station: null });
const setAt = (...since: readonly number[]) => new Map(since.map((grown, n) => [`A:${n}`, { ids: [`${n}`], since: grown }] as const));

test("a station set to a height that the plan no longer has is to be set anew, and is not done", () => {
  const standings = shims(12, 12, 12);
  const set = setAt(0, -1.6, 2);
  expect([...doneIn(set, standings)]).toEqual(["A:0"]);
  expect([...movedIn(set, standings)].sort()).toEqual(["A:1", "A:2"]);
});

test("a ramp set to the nearest sixteenth is never off by its rounding, whatever the exact shim", () => {
  for (let shim = 3; shim < 40; shim += 0.037) {
    const set = setAt(shim - (Math.round((shim * 16) / 25.4) * 25.4) / 16);
    expect([...movedIn(set, shims(shim))], `${shim}`).toEqual([]);
  }
});

test("what was set and what is told now are never the same figure where a station is to be set anew", () => {
  for (let shim = 3; shim < 20; shim += 0.041) for (let since = -4; since < 4; since += 0.13) {
    const [standing] = shims(shim);
    const own = { ids: ["a"], since };
    if (standing && isMoved(own, standing.station)) expect(toldBefore(own, standing.station), `${shim} ${since}`).not.toBe(roundedMm(standing.station));
    else expect(Math.abs(since), `${shim} ${since}`).toBeLessThan(25.4 / 16 + 1e-9);
  }
});

test("a shim is taken apart as its text has it, in either unit", () => {
  const inches = { units: "imperial", language: "en" } as const;
  const parts = [0, 3, 16, 21, -5, 207].map((sixteenths) => numeralOf(depthText((sixteenths * 25.4) / 16, inches)));
  expect(parts).toEqual([
    { minus: false, whole: "0", part: null, unit: "\u2033" },
    { minus: false, whole: "", part: ["3", "16"], unit: "\u2033" },
    { minus: false, whole: "1", part: null, unit: "\u2033" },
    { minus: false, whole: "1", part: ["5", "16"], unit: "\u2033" },
    { minus: true, whole: "", part: ["5", "16"], unit: "\u2033" },
    { minus: false, whole: "12", part: ["15", "16"], unit: "\u2033" },
  ]);
  expect(numeralOf(depthText(133, { units: "metric", language: "es" }))).toEqual({ minus: false, whole: "133", part: null, unit: "mm" });
  expect(parts.map(sizeOf)).toEqual(["digits-1", "with-part digits-0", "digits-1", "with-part digits-1", "with-part digits-1", "with-part digits-2"]);
  const metric = { units: "metric", language: "en" } as const;
  expect([3, 33, 120].map((mm) => sizeOf(numeralOf(depthText(mm, metric))))).toEqual(["digits-1 in-mm", "digits-2 in-mm", "digits-3 in-mm"]);
  expect(() => numeralOf("soon")).toThrow("Not a shim");
});

test("a double hit counts once, and the next hit after the pause counts again", () => {
  const counts = pausing(400);
  expect([1000, 1100, 1399, 1400, 1500, 1800].map(counts)).toEqual([true, false, false, true, false, true]);
});
