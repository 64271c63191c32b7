import { afterEach, expect, test } from "vitest";
import { bandsBetween, type Corner } from "../../src/drawing/bands";
import { askedFor, batchAfter } from "../../src/screens/checking/batch";
import { asLongAs, cutToRoom, laidOver, liesInRoom, type Floor } from "../../src/screens/checking/edge/inRoom";
import { tapped, wholeEdge, type Edge } from "../../src/screens/checking/edge/laid";
import { edgeView, openMost } from "../../src/screens/checking/edge/underEdge";
import { EMPTY_LINE, fieldsFromLine, spacingOf } from "../../src/screens/checking/heights/line";
import { changedLimit, freshLimit, limitWithout } from "../../src/screens/checking/standards";
import { percentText } from "../../src/screens/checking/telling";
import { touchedAt } from "../../src/screens/checking/touched";
import { becauseOf } from "../../src/screens/checking/VerdictHead";
import { depthToDo, flatnessOf, gapText, governingCheck, nearText, offText, ruleText, verdictText, worstOf } from "../../src/screens/common/flatness";
import { baseOf, flatFill, offPoints, reachOf, sceneWorks, wedgeEdges, worstEdges } from "../../src/screens/common/flatnessLayers";
import type { RoomView } from "../../src/screens/common/useRoom";
import type { Flatness, Plan, Row, StraightedgeCheck } from "../../src/wire";
import { reader } from "../../src/words";

const NOT_READ: Flatness = {
  standard: "ansi_a108_02", verdict: "not_read", readings: 0, stale: [], spacing: null, points: [], spots: 0, triangles: [], checks: [], gaps: [], level: null,
  f_numbers: null, f_lines: [], f_needs: null, needs_ff: null, needs_fl: null, work: [], is_green: null, green_until: null, next_readings: [],
};
const LYING = { from: [0, 0], to: [3048, 0], at: [1000, 0], rests: [[0, 0], [2000, 0]], gap: 3, sigma: 0.7 } as const;

function check(given: Partial<StraightedgeCheck>): StraightedgeCheck {
  return { limit: 6.35, basis: "", code: "", verdict: "within", sure: true, gap: LYING, hump: null, judged_share: 1, beyond_share: 0, length: 3048, ...given };
}

afterEach(() => { reader.value = { units: "imperial", language: "en" }; });

test("a straightedge is told as it is bought: inches, feet, millimetres, metres", () => {
  expect([304.8, 609.6, 3048, 2000, 1219.2].map(ruleText)).toEqual(["12\u2033", "24\u2033", "10\u2032", "6\u2032\u00a06\u00a03/4\u2033", "4\u2032"]);
  reader.value = { units: "metric", language: "es" };
  expect([300, 2000, 3048].map(ruleText)).toEqual(["300\u202fmm", "2\u202fm", "3.05\u202fm"]);
});

test("a gap is told to a thirty-second, or to a tenth of a millimetre; what is high has a plus", () => {
  expect([gapText(3.175), offText(1.6), offText(-1.6), offText(0)]).toEqual(["1/8\u2033", "+1/16\u2033", "\u22121/16\u2033", "0\u2033"]);
  reader.value = { units: "metric", language: "en" };
  expect([gapText(3.14), offText(0.04), offText(0.25)]).toEqual(["3.1\u202fmm", "0\u202fmm", "+0.3\u202fmm"]);
});

test("work is never told as nothing: a hand takes off a sixteenth, or half a millimetre, at least", () => {
  expect([depthToDo(0.2), depthToDo(3.2)]).toEqual(["1/16\u2033", "1/8\u2033"]);
  reader.value = { units: "metric", language: "en" };
  expect([depthToDo(0.1), depthToDo(1.8)]).toEqual(["0.5\u202fmm", "2\u202fmm"]);
});

test("a share that is not quite all is not told as all, nor a small one as none", () => {
  expect([0, 0.001, 0.5, 0.999, 1].map(percentText)).toEqual(["0\u202f%", "< 1\u202f%", "50\u202f%", "> 99\u202f%", "100\u202f%"]);
});

test("what decides is the check that is beyond, then the one that cannot be judged, then the one nearest to its limit", () => {
  const near = check({ limit: 3.1 });
  const far = check({ length: 304.8, limit: 30 });
  const sparse = check({ verdict: "too_sparse", gap: null });
  const beyond = check({ verdict: "beyond", limit: 1 });
  const of = (checks: readonly StraightedgeCheck[]) => governingCheck({ ...NOT_READ, checks });
  expect(of([far, near])).toBe(near);
  expect(of([far, sparse, near])).toBe(sparse);
  expect(of([far, sparse, beyond])).toBe(beyond);
  expect(of([])).toBeNull();
});

test("a bed that is read densely enough and not judged was worked over since", () => {
  const told = (share: number) => becauseOf({ ...NOT_READ, verdict: "too_sparse", checks: [check({ verdict: "too_sparse", judged_share: share, gap: null })] });
  expect(told(0.98)).toContain("nobody looked since");
  expect(told(0.5)).toContain("only 50");
});

test("the worst of a check is its hump where that is more than its gap", () => {
  expect(worstOf(check({}))?.kind).toBe("gap");
  expect(worstOf(check({ hump: { ...LYING, gap: 4 } }))?.kind).toBe("hump");
  expect(worstOf(check({ gap: null }))).toBeNull();
});

test("a verdict nearer to its limit than the readings can tell says so", () => {
  expect(verdictText("within")).toBe("Within the limit");
  expect([nearText(check({})), nearText(check({ verdict: "too_sparse", sure: false }))]).toEqual(["", ""]);
  expect(nearText(check({ sure: false }))).toMatch(/^Nearer to the limit than the readings can tell/);
});

const HILL: Flatness = { ...NOT_READ, spots: 3, points: [[0, 0, -1], [1000, 0, 4], [0, 1000, 2]], triangles: [[0, 1, 2]] };

test("the map's colours reach as far below the top as above it, and a true bed is not painted as hills", () => {
  expect(reachOf(HILL)).toBe(4);
  expect(reachOf(NOT_READ)).toBe(1.5);
  const bands = flatFill(HILL)?.bands ?? [];
  expect(bands.map(({ low }) => low)[0]).toBe(-4);
  expect(bands.at(-1)?.high).toBe(4);
  expect(bands[3]?.low).toBeCloseTo(-4 / 7, 9);
  expect(flatFill(NOT_READ)).toBeNull();
});

function areaOf(polygon: readonly (readonly [number, number])[]): number {
  return polygon.reduce((sum, [x, y], index) => {
    const [nx, ny] = polygon[(index + 1) % polygon.length] ?? [x, y];
    return sum + (x * ny - nx * y) / 2;
  }, 0);
}

test("bands between two values cover a triangle that lies within them, once", () => {
  const triangle: readonly Corner[] = [[0, 0, -1], [1000, 0, 4], [0, 1000, 2]];
  const area = (low: number, high: number) => bandsBetween([triangle], low, high, 7).flatMap(({ polygons }) => polygons).reduce((sum, polygon) => sum + areaOf(polygon), 0);
  expect(area(-4, 4)).toBeCloseTo(500_000, 3);
  expect(area(-1, 1)).toBeLessThan(500_000);
});

test("where two limits find one lying it is drawn once; a wedge is beyond by the engine's word alone", () => {
  expect(worstEdges({ ...NOT_READ, checks: [check({}), check({ length: 304.8 })] })).toHaveLength(1);
  expect(worstEdges({ ...NOT_READ, checks: [check({ limit: 2 })] })[0]).toMatchObject({ kind: "gap", isBeyond: true, label: "1/8\u2033" });
  const gap = { kind: "gap" as const, id: "g", sequence: 0, waiting: 0, conflicts: {}, fields: { from: [0, 0] as const, to: [100, 0] as const, gap: 9 } };
  expect(wedgeEdges([gap], null)[0]).toMatchObject({ at: [50, 0], isBeyond: false });
  const told = { ...NOT_READ, gaps: [{ gap: "g", measured: 9, limit: 3, verdict: "beyond" as const, length: 100 }] };
  expect(wedgeEdges([gap], told)[0]).toMatchObject({ isBeyond: true });
});

test("a place to rub down carries a minus, one to fill up a plus, and what was done is marked", () => {
  const one = { id: "K1", at: [0, 0], polygon: [], changes: [], depth: 1.6, volume: 0, before: 3, after: 1, done_at: null, length: 3048 } as const;
  const [rub, fill] = sceneWorks({ ...NOT_READ, work: [{ ...one, way: "rub" }, { ...one, way: "fill", done_at: "2026-05-04T08:00:00Z" }] });
  expect([rub?.label, rub?.isDone, fill?.label, fill?.isDone]).toEqual(["K1 \u22121/16\u2033", false, "K1 +1/16\u2033", true]);
});

function room(id: string, plan: Plan | null, status: "ready" | "computing" | "problems" = "ready"): RoomView {
  return { id, fields: {}, readings: [], plan, state: { status, plan, problems: [], at: null } };
}

test("until a new plan has its flatness the former one stays, marked as such; with problems there is none", () => {
  const quick = { flatness: null, surface: { statistics: null } } as unknown as Plan;
  const unmeasured = { flatness: null, surface: { statistics: {} } } as unknown as Plan;
  const whole = { flatness: NOT_READ } as unknown as Plan;
  expect(flatnessOf(room("r", quick))).toBeNull();
  expect(flatnessOf(room("r", whole))).toMatchObject({ isOld: false, plan: whole });
  expect(flatnessOf(room("r", whole, "computing"))).toMatchObject({ isOld: true });
  expect(flatnessOf(room("r", quick))).toMatchObject({ isOld: true, plan: whole });
  expect(flatnessOf(room("other", quick))).toBeNull();
  expect(flatnessOf(room("r", unmeasured))).toBeNull();
  expect(flatnessOf(room("r", quick))).toBeNull();
  expect(flatnessOf(room("r", whole))).toMatchObject({ isOld: false });
  expect(flatnessOf(room("r", null, "problems"))).toBeNull();
  expect(flatnessOf(room("r", quick))).toBeNull();
});

test("two taps lay a straightedge, a third begins another; one on its own end lies nowhere", () => {
  const first = tapped(null, [10.4, 20.6]);
  expect(first).toEqual({ from: [10, 21], to: null });
  expect(wholeEdge(first)).toBeNull();
  const both = tapped(first, [1010, 21]);
  expect(wholeEdge(both)).toEqual({ from: [10, 21], to: [1010, 21] });
  expect(tapped(both, [5, 5])).toEqual({ from: [5, 5], to: null });
  expect(wholeEdge(tapped(first, [20, 21]))).toBeNull();
});

const HALL: Floor = { outline: [[0, 0], [4000, 0], [4000, 3000], [0, 3000]], cutouts: [[[1800, 0], [2200, 0], [2200, 1000], [1800, 1000]]] };
const ANGLE: Floor = { outline: [[0, 0], [4000, 0], [4000, 1000], [1000, 1000], [1000, 3000], [0, 3000]], cutouts: [] };

test("made longer a straightedge keeps its first end and its way; a wall moves it along its line, or ends it", () => {
  const slant: Edge = { from: [100, 1100], to: [400, 1500] };
  expect(asLongAs(slant, 1000, HALL)).toEqual({ fit: "whole", edge: { from: [100, 1100], to: [700, 1900] } });
  expect(asLongAs({ from: [3000, 2000], to: [3500, 2000] }, 2000, HALL)).toEqual({ fit: "moved", edge: { from: [2000, 2000], to: [4000, 2000] } });
  expect(asLongAs({ from: [500, 2000], to: [500, 2400] }, 5000, HALL)).toEqual({ fit: "short", edge: { from: [500, 0], to: [500, 3000] } });
  expect(asLongAs({ from: [200, 500], to: [900, 500] }, 3000, HALL)).toEqual({ fit: "short", edge: { from: [0, 500], to: [1800, 500] } }); // up to the post
  expect(asLongAs({ from: [100, 2000], to: [900, 2000] }, 3000, { outline: [], cutouts: [] }).edge.to).toEqual([3100, 2000]);
});

test("what runs through a wall, over a corner or across a post is not in the room, and is cut to it", () => {
  const across: Edge = { from: [500, 500], to: [3500, 500] };
  expect([liesInRoom(across, HALL), liesInRoom({ from: [0, 0], to: [1800, 0] }, HALL), liesInRoom({ from: [0, 0], to: [4000, 3000] }, HALL)]).toEqual([false, true, true]);
  expect(liesInRoom({ from: [500, 2500], to: [3500, 500] }, ANGLE)).toBe(false);
  expect(cutToRoom({ from: [500, 2000], to: [6000, 2000] }, HALL)).toEqual({ from: [500, 2000], to: [4000, 2000] });
  expect(cutToRoom({ from: [5000, 0], to: [6000, 0] }, HALL)).toBeNull();
});

test("laid over a place a straightedge is as long as asked wherever the room lets it, and holds that place", () => {
  for (const at of [[100, 100], [3900, 2900], [2000, 2000], [1000, 500]] as const) {
    const { edge, fit } = laidOver(at, 1500, HALL);
    expect(fit).not.toBe("short");
    expect(liesInRoom(edge, HALL)).toBe(true);
    expect(Math.hypot(edge.to[0] - edge.from[0], edge.to[1] - edge.from[1])).toBeCloseTo(1500, 0);
    const beside = Math.abs((edge.to[0] - edge.from[0]) * (edge.from[1] - at[1]) - (edge.from[0] - at[0]) * (edge.to[1] - edge.from[1])) / 1500;
    expect(beside).toBeLessThan(1);
  }
  expect(laidOver([500, 2500], 4000, ANGLE).fit).toBe("short");
});

test("it stands open most where the bed lies farthest under the line from rest to rest", () => {
  const profile = [[0, 0], [500, -4], [1000, 2], [1500, 0]] as const;
  const edge = [[0, 0], [1000, 2], [1500, 0]] as const;
  expect(openMost({ profile, edge })).toEqual({ along: 500, bed: -4, edge: 1, gap: 5 });
  expect(openMost({ profile: edge, edge })).toBeNull();
  expect(openMost({ profile: [], edge: [] })).toBeNull();
});

test("the picture keeps the whole line within the window, highest on top", () => {
  const view = edgeView({ profile: [[0, 0], [2000, -3]], edge: [[0, 0], [2000, -3]], length: 2000 }, { width: 320, height: 150 });
  const [[left, top], [right, foot]] = [view.at(0, 0), view.at(2000, -3)];
  expect([left, right]).toEqual([16, 304]);
  expect(top).toBeLessThan(foot);
  expect(foot).toBeLessThanOrEqual(150);
});

test("rod readings are kept as heights, upward; the spacing is that of the person's units", () => {
  const line = { ...EMPTY_LINE, heights: [{ mm: 1000, typed: "1000" }, { mm: 1003, typed: "1003" }, { mm: 0, typed: "0" }] };
  expect(fieldsFromLine(line, "metric")).toEqual({ heights: [-1000, -1003, 0], spacing: 300, typed: { heights: "1000; 1003; 0", way: "down" } });
  expect(fieldsFromLine({ ...line, way: "up" }, "metric").heights).toEqual([1000, 1003, 0]);
  expect(spacingOf(EMPTY_LINE, "imperial")).toBeCloseTo(304.8, 9);
  expect(fieldsFromLine({ ...line, from: [1, 2], to: [3, 4] }, "metric")).toMatchObject({ from: [1, 2], to: [3, 4] });
});

test("the company's limits grow, change and shrink one by one", () => {
  const one = freshLimit([]);
  expect(one).toEqual([{ length: 2000, gap: 3 }]);
  const two = freshLimit(one);
  expect(two).toEqual([{ length: 2000, gap: 3 }, { length: 1000, gap: 1.5 }]);
  expect(changedLimit(two, 1, { gap: 2 })[1]).toEqual({ length: 1000, gap: 2 });
  expect(limitWithout(two, 0)).toEqual([{ length: 1000, gap: 1.5 }]);
});

test("the places in hand stay in their order until they are read or passed over, and what a newer plan asks besides joins on behind them", () => {
  const [inHand, newer] = [[[100, 100], [900, 100]] as const, [[500, 500], [900, 110]] as const];
  expect(batchAfter(null, newer, [])).toBe(newer);
  expect(batchAfter(inHand, newer, [])).toEqual(inHand); // no more at a time than are asked for
  expect(batchAfter(inHand, newer, [[100, 110]])).toEqual([[900, 100], [500, 500]]);
  expect(batchAfter(inHand, newer, [[100, 110], [500, 500]])).toEqual([[900, 100]]);
  expect(batchAfter(inHand, newer, [[100, 110], [900, 100]])).toBe(newer);
  expect(batchAfter(inHand, [], [])).toEqual([]); // nothing more is asked
  expect(batchAfter(inHand, null, [])).toBeNull();
});

test("of the places that a newer plan asks for the farthest from those in hand joins first, so that none is read beside another", () => {
  const asked = [[100, 300], [100, 900], [100, 500]] as const;
  expect(batchAfter([[100, 100]], asked, [])).toEqual([[100, 100], [100, 900], [100, 500]]);
});

test("before the check asks, and while it cannot judge and asks for nothing, the round goes by corners, walls and a grid", () => {
  expect(askedFor(undefined)).toBeNull();
  expect(askedFor({ verdict: "too_sparse", next_readings: [] })).toBeNull();
  expect(askedFor({ verdict: "within", next_readings: [] })).toEqual([]);
  expect(askedFor({ verdict: "too_sparse", next_readings: [[1, 2]] })).toEqual([[1, 2]]);
});

test("a bed that lies high on the whole is shown about its own mean, as far as it is off that", () => {
  const raised: Flatness = {
    ...HILL, points: [[0, 0, 29], [1000, 0, 31], [0, 1000, 30]],
    level: { mean: 30, rms: 0.8, highest: 31, highest_at: [1000, 0], lowest: 29, lowest_at: [0, 0], falls: [], standing_water: [] },
  };
  expect([baseOf(raised), reachOf(raised), baseOf(HILL)]).toEqual([30, 1.5, 0]);
  expect(offPoints(raised).map(({ label }) => label)).toEqual(["\u22121/32\u2033", "+1/32\u2033", "0\u2033"]);
});

test("only what was read stands on the map as read: the middle of four readings is drawn over and told nowhere", () => {
  const amid: Flatness = { ...HILL, points: [...HILL.points, [300, 300, 9]] };
  expect(offPoints(amid).map(({ at }) => at)).toEqual([[0, 0], [1000, 0], [0, 1000]]);
});

test("the highest and the lowest reading carry their signs where no other reads the same", () => {
  const kinds = (points: Flatness["points"]) => offPoints({ ...HILL, points }).map(({ kind }) => kind);
  expect(kinds([[0, 0, -3], [1000, 0, 2], [0, 1000, 0]])).toEqual(["low", "high", "read"]);
  expect(kinds([[0, 0, -3], [1000, 0, 0], [0, 1000, 0.02]])).toEqual(["low", "read", "read"]);
  expect(kinds([[0, 0, 0]])).toEqual(["read"]);
});

test("work counts as done from the tap on, until its place is read again", () => {
  const row = <K extends "entry" | "reading">(kind: K, fields: Row<K>["fields"]): Row<K> => ({ kind, id: "x", sequence: 0, waiting: 0, conflicts: {}, fields });
  const work = { at: [100, 100], way: "fill" } as const;
  const done = row("entry", { what: "filled_up", place: [100, 100], at: "2026-05-04T08:00:00Z" });
  const reading = (at: readonly [number, number], taken_at: string) => row("reading", { stage: "bed", at, taken_at });
  expect(touchedAt(work, [done], [])).toBe("2026-05-04T08:00:00Z");
  expect(touchedAt({ ...work, way: "rub" }, [done], [])).toBeNull();
  expect(touchedAt({ ...work, at: [300, 100] }, [done], [])).toBeNull();
  expect(touchedAt(work, [done], [reading([110, 100], "2026-05-04T07:00:00Z"), reading([400, 100], "2026-05-04T09:00:00Z")])).toBe("2026-05-04T08:00:00Z");
  expect(touchedAt(work, [done], [reading([110, 100], "2026-05-04T09:00:00Z")])).toBeNull();
});
