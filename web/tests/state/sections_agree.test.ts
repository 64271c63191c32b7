/** What the phone tells of sections at once is what the engine's clock then says: one truth, by place and by number. */
import { describe, expect, test } from "vitest";
import { sectionsNow } from "../../src/screens/common/filled";
import { documentFromParts } from "../../src/state/document";
import { sectionIdOf, sectionTimes } from "../../src/state/sections";
import { placedFromRows } from "../../src/state/worked";
import type { FillClock, Kind, Plan, Row } from "../../src/wire";
import { randomFrom } from "../sync/random";
import { answersTo, hasEngine } from "./engine";

const CORNERS = [[0, 0], [9000, 0], [9000, 2000], [0, 2000]] as const;
const CUT_AT = [150, 1900, 3700, 5500, 8850]; // x of the rails, across the room
const MOMENTS = ["2026-05-04T08:00:00Z", "2026-05-04T11:00:00+02:00", "2026-05-04T10:00:00.250Z", null, null];
const IDS = ["S1", "S2", "S3", "S4", "S9", ""];
const FAR = 200; // how far an entry may lie from the middle of the room's long line, mm, up and down: some beyond the walls
const DAYS = 60;

function rowsOf<K extends Kind>(kind: K, fields: () => object, count: number): readonly Row<K>[] {
  return Array.from({ length: count }, (_, n): Row<K> => ({ kind, id: `${kind}-${n}`, fields: fields(), sequence: 0, waiting: 0, conflicts: {} }));
}

function dayOf(seed: number) {
  const chance = randomFrom(seed);
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(chance() * from.length)];
  const at = () => (chance() < 0.3 ? null : [Math.round(chance() * 10) * 1000 - FAR, pick([1000, 1000, 2040, 2060])]);
  const moments = () => Object.fromEntries(["mixed_at", "placed_at", "screeded_at", "channels_at"].map((name) => [name, pick(MOMENTS)]));
  const placements = rowsOf("placement", () => ({ section: pick(IDS), at: at(), ...moments() }), Math.floor(chance() * 7));
  const batches = rowsOf("batch", () => ({ section: pick(IDS), at: at(), mixed_at: MOMENTS[0] }), Math.floor(chance() * 3));
  const lines = CUT_AT.map((x, n) => ({ id: "ABCDE"[n] ?? "", from: [x, 50] as [number, number], to: [x, 1950] as [number, number] }));
  const room = { outline: { vertices: CORNERS }, "rails.lines": lines } as object;
  const readings = rowsOf("reading", () => ({}), 4).map((row, n) => ({ ...row, fields: { down: 100, at: CORNERS[n] } })) as unknown as readonly Row<"reading">[];
  return { placements, batches, document: documentFromParts({ room, readings, climate: [], placements, batches }) };
}

describe.skipIf(!hasEngine)("phone and engine", () => {
  test("say the same of every section and of every batch that tells its section, whatever was told", () => {
    const days = Array.from({ length: DAYS }, (_, seed) => dayOf(seed + 1));
    const [plan, ...clocks] = answersTo([["quick_plan", days[0]?.document], ...days.map(({ document }) => ["fill_clock", { document, now: "2026-05-04T12:00:00Z" }] as const)]) as unknown as [Plan, ...FillClock[]];
    const seen = new Set<string>();
    for (const [n, { placements, batches }] of days.entries()) {
      const shapes = clocks[n]?.sections ?? [];
      const own = batches.map((row) => sectionIdOf(row.fields, shapes));
      for (const [k, id] of own.entries()) if (id !== null) expect(clocks[n]?.batches.find((one) => one.id === `batch-${k}`)?.section).toBe(id);
      if (own.includes(null)) continue; // the engine then finds a section for it by its time
      const told = batches.map((row, k) => ({ ...row, fields: { ...row.fields, section: own[k] ?? null } }));
      const states = sectionsNow(plan, sectionTimes(placedFromRows(placements), shapes), told, null).map(({ state }) => state);
      expect(states).toEqual(shapes.map(({ state }) => state));
      for (const state of states) seen.add(state);
    }
    expect([...seen].sort()).toEqual(["filling", "packed", "placed", "screeded", "waiting"]);
  }, 60_000);
});
