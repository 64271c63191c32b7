import { expect, test } from "vitest";
import { draftFromTarget, draftOfReadPlace, readingDraft, roundOf, targetDraft, targetFromDraft, tiesOf } from "../../src/screens/levels/round";
import type { Place } from "../../src/drawing/camera";
import type { Fields, Row } from "../../src/wire";

const PROPOSED: readonly Place[] = [[75, 75], [1000, 75], [2000, 75], [3000, 75]];
const NOTHING = { stage: "subfloor" as const, passed: [], readings: [], proposed: PROPOSED, taking: [], chosen: null, begun: null, ties: [] };

function reading(id: string, fields: Fields<"reading">): Row<"reading"> {
  return { kind: "reading", id, fields, sequence: 0, waiting: 0, conflicts: {} };
}

test("the round begins at the first place and goes on from the last one read, in any order", () => {
  expect(roundOf(NOTHING)).toMatchObject({ current: { place: [75, 75] }, done: 0, of: 4 });
  const readings = [reading("a", { down: 1, at: [2000, 75] })];
  expect(roundOf({ ...NOTHING, readings })).toMatchObject({ current: { place: [3000, 75] }, done: 1, of: 4 });
  const both = [reading("b", { down: 1, at: [3000, 75] }), ...readings];
  expect(roundOf({ ...NOTHING, readings: [...both, reading("c", { down: 1, at: [3000, 80] })] })).toMatchObject({ current: { place: [75, 75] }, done: 2 });
});

test("a place on its way into storage counts as read", () => {
  expect(roundOf({ ...NOTHING, taking: [[75, 75]] })).toMatchObject({ current: { place: [1000, 75] }, done: 1 });
});

test("a skipped place is left out of the round and kept apart; read after all, it is skipped no more", () => {
  const passed: readonly Place[] = [[1000, 75]];
  expect(roundOf({ ...NOTHING, passed, taking: [[75, 75]] })).toMatchObject({ current: { place: [2000, 75] }, skipped: [[1000, 75]], done: 1, of: 3 });
  const readings = [reading("a", { down: 1, at: [1000, 75] })];
  expect(roundOf({ ...NOTHING, passed, readings })).toMatchObject({ skipped: [], done: 1, of: 4 });
});

test("where all but the skipped is read, nothing is proposed", () => {
  const passed: readonly Place[] = [[3000, 75]];
  expect(roundOf({ ...NOTHING, passed, taking: PROPOSED.slice(0, 3) })).toMatchObject({ current: null, left: [], skipped: [[3000, 75]] });
});

test("what a person chose comes first, then a number begun, then what ties the set-up", () => {
  const given = { ...NOTHING, ties: [{ mark: "nail" }], begun: [2000, 75] as const };
  expect(roundOf({ ...given, chosen: { mark: "sill" } })).toMatchObject({ current: { mark: "sill" }, isTie: false });
  expect(roundOf(given)).toMatchObject({ current: { place: [2000, 75] }, isTie: false });
  expect(roundOf({ ...given, begun: null })).toMatchObject({ current: { mark: "nail" }, isTie: true });
});

test("marks that were read come before places, places by how near they are", () => {
  const readings = [reading("a", { down: 1, at: [0, 0] }), reading("b", { down: 1, at: [900, 0] }), reading("c", { down: 1, mark: "nail" }), reading("d", { down: 1, at: [500, 0], setup: "other" })];
  const marks = [{ id: "unread" }, { id: "nail" }, { id: "known", height: 3 }];
  expect(tiesOf(readings, "subfloor", marks, new Set([""]), [1000, 0])).toEqual([{ mark: "nail" }, { mark: "known" }, { place: [900, 0] }, { place: [0, 0] }]);
});

test("what was chosen comes back from its draft; a read place to the last digit", () => {
  for (const target of [{ mark: "nail" }, { again: "id" }, { place: [75, 75] as const }]) expect(targetFromDraft(draftFromTarget(target))).toEqual(target);
  expect(targetFromDraft(draftFromTarget({ place: [75.4, 75.6] }))).toEqual({ place: [75, 76] });
  expect(targetFromDraft(draftOfReadPlace([75.4, 75.6]))).toEqual({ place: [75.4, 75.6] });
});

test("on the bed only its own readings count, each for the very place", () => {
  const floor = [reading("a", { down: 1, at: [75, 75] }), reading("m", { down: 1, mark: "nail" })];
  const bed = [reading("b", { down: 1, at: [1000, 75], stage: "bed" })];
  expect(roundOf({ ...NOTHING, stage: "bed", readings: floor })).toMatchObject({ done: 0, current: { place: [75, 75] } });
  expect(roundOf({ ...NOTHING, stage: "bed", readings: [...floor, ...bed] })).toMatchObject({ done: 1, current: { place: [2000, 75] } });
  expect(roundOf({ ...NOTHING, stage: "bed", proposed: [[1100, 75]], readings: bed })).toMatchObject({ done: 0, current: { place: [1100, 75] } });
  expect(roundOf({ ...NOTHING, readings: bed })).toMatchObject({ done: 0 });
});

test("a set-up on the bed is tied by marks and by places of the bed, not by what lies under it", () => {
  const readings = [reading("a", { down: 1, at: [0, 0] }), reading("b", { down: 1, at: [900, 0], stage: "bed" }), reading("c", { down: 1, mark: "nail" })];
  expect(tiesOf(readings, "bed", [{ id: "nail" }], new Set([""]), [0, 0])).toEqual([{ mark: "nail" }, { place: [900, 0] }]);
});

test("a number begun on the bed is not taken for one of the subfloor at the same place", () => {
  const target = { place: [75, 75] as const };
  expect(readingDraft("r", "bed", target)).not.toBe(readingDraft("r", "subfloor", target));
  expect(readingDraft("r", "subfloor", target)).toBe("reading:r:75:75");
  expect(targetDraft("r", "subfloor")).toBe("place:r");
});
