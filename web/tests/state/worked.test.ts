/** What was done on the floor in the room document: exactly what the engine takes, whatever the records hold. */
import { describe, expect, test } from "vitest";
import { documentFromParts, type RoomParts } from "../../src/state/document";
import { isMoment } from "../../src/state/worked";
import type { AnyFields, Kind, Row } from "../../src/wire";
import { randomFrom } from "../sync/random";
import { answersTo, hasEngine, type Asked } from "./engine";

const [EIGHT, NINE, TEN] = ["2026-05-04T08:00:00Z", "2026-05-04T11:00:00+02:00", "2026-05-04T10:00:00.250Z"];
const CORNERS = [[0, 0], [4000, 0], [4000, 3000], [0, 3000]] as const;
let made = 0;

function row<K extends Kind>(kind: K, fields: AnyFields): Row<K> {
  made += 1;
  return { kind, id: `${kind}-${String(made).padStart(6, "0")}`, fields: fields as Row<K>["fields"], sequence: 0, waiting: 0, conflicts: {} };
}

function parts(told: Partial<RoomParts>): RoomParts {
  const readings = CORNERS.map((at, n) => row("reading", { down: 100 + n, at }));
  return { room: { outline: { vertices: CORNERS } }, readings, climate: [], placements: [], ...told };
}

function documentOf(told: Partial<RoomParts>) {
  return documentFromParts(parts(told));
}

test("a document without anything done holds no list of it but the placements, which are none", () => {
  const document = documentOf({ batches: [], railChecks: [], entries: [row("entry", { what: "note", at: EIGHT, text: "x" })] });
  expect(Object.keys(document).sort()).toEqual(["climate", "document", "outline", "placements", "readings"]);
});

test("a check goes in along its rail or across two, one whose rail is gone too, in the order they were read", () => {
  const railChecks = [
    row("rail_check", { rail: "B", rail_to: "C", from: 0, to: 20, off: 0, taken_at: TEN, level: "long" }),
    row("rail_check", { rail: "gone", off: -1.5, reversed_off: 0, length: 1200, taken_at: EIGHT, typed: "1/16", level: null }),
    row("rail_check", { rail: "B", rail_to: "B", from: 0, to: 900, off: 2, taken_at: NINE }),
  ];
  const [across, gone, same] = railChecks.map(({ id }) => id);
  expect(documentOf({ railChecks }).checks).toEqual([
    { id: gone, rail: "gone", off: -1.5, length: 1200, reversed_off: 0, taken_at: EIGHT },
    { id: same, rail: "B", from: 0, to: 900, off: 2, taken_at: NINE },
    { id: across, rails: ["B", "C"], from: 0, to: 20, off: 0, taken_at: TEN, level: "long" },
  ]);
});

test("truings and stoppages come from the day book in order of time; what still lasts has no end", () => {
  const entries = [
    row("entry", { what: "trued", rail: "A", to_raise: -1.6, at: TEN }),
    row("entry", { what: "stopped", at: TEN }),
    row("entry", { what: "trued", rail: "B", lie: 2, from_raise: 1, to_raise: 2, at: EIGHT }),
    row("entry", { what: "stopped", at: EIGHT, until: NINE }),
    row("entry", { what: "helper", at: EIGHT }),
  ];
  const document = documentOf({ entries });
  expect(document.truings).toEqual([{ rail: "B", lie: 2, from_raise: 1, to_raise: 2, at: EIGHT }, { rail: "A", from_raise: 0, to_raise: -1.6, at: TEN }]);
  expect(document.stoppages).toEqual([{ start: EIGHT, end: NINE }, { start: TEN }]);
});

test("what was told of one place is told once, whatever its number was; a place that is none is left out", () => {
  const placements = [
    row("placement", { section: "S1", at: [900, 1500], placed_at: EIGHT }),
    row("placement", { section: "S2", at: [900, 1500.5], placed_at: NINE }),
    row("placement", { section: "S2", at: [1], placed_at: TEN }),
  ];
  const batches = [row("batch", { section: "S1", at: [900, 1500], mixed_at: EIGHT }), row("batch", { section: "S1", at: [2e6, 0], mixed_at: NINE })];
  expect(documentOf({ placements, batches })).toMatchObject({
    placements: [{ section: "S2", at: [900, 1500.5], placed_at: NINE }, { section: "S2", placed_at: TEN }],
    batches: [{ section: "S1", at: [900, 1500] }, { section: "S1" }],
  });
});

test("batches go in as they were mixed, the oldest first; sections once, where two phones began one", () => {
  const batches = [
    row("batch", { mixed_at: TEN, section: "S2", size: 0.5, thrown_at: TEN }),
    row("batch", { mixed_at: EIGHT, section: null, placed_at: NINE }),
  ];
  const placements = [
    row("placement", { section: "S1", mixed_at: EIGHT, placed_at: EIGHT }),
    row("placement", { section: "S2", mixed_at: NINE }),
    row("placement", { section: "S1", placed_at: NINE, screeded_at: TEN, channels_at: null }),
  ];
  const document = documentOf({ batches, placements });
  expect(document.batches).toEqual([
    { id: batches[1]?.id, mixed_at: EIGHT, placed_at: NINE, size: 1 },
    { id: batches[0]?.id, section: "S2", mixed_at: TEN, thrown_at: TEN, size: 0.5 },
  ]);
  expect(document.placements).toEqual([
    { section: "S1", mixed_at: EIGHT, placed_at: NINE, screeded_at: TEN },
    { section: "S2", mixed_at: NINE },
  ]);
});

const HALF_MADE: readonly (readonly [string, Partial<RoomParts>])[] = [
  ["a check that says no reading", { railChecks: [row("rail_check", { rail: "A" })] }],
  ["a check without a rail", { railChecks: [row("rail_check", { rail: null, off: 1 })] }],
  ["a check from before the rail begins", { railChecks: [row("rail_check", { rail: "A", off: 1, from: -20 })] }],
  ["a batch of which nobody knows when", { batches: [row("batch", { section: "S1" }), row("batch", { mixed_at: "today" })] }],
  ["a batch of no size", { batches: [row("batch", { mixed_at: EIGHT, size: 0 }), row("batch", { mixed_at: EIGHT, size: 11 })] }],
  ["a truing of no rail, or at no moment", { entries: [row("entry", { what: "trued", at: EIGHT }), row("entry", { what: "trued", rail: "A", at: "9:42" })] }],
  ["a stoppage that ends before it begins", { entries: [row("entry", { what: "stopped", at: TEN, until: EIGHT })] }],
];

test.each(HALF_MADE)("%s is left out", (_, told) => {
  expect(documentOf(told)).toEqual({ ...documentOf({}), readings: expect.any(Array) as unknown });
});

test("strips and lines that are half made are left out, and a list that was told stays one", () => {
  const room = {
    outline: { vertices: CORNERS },
    "rails.strips": [{ thickness: 19, length: 2400 }, { thickness: 19 }, { length: 2400, count: 3 }],
    "rails.lines": [{ id: "A", from: [150, 0], to: [150, 3000] }, { id: "B", from: [150, 0] }],
    "filling.day_ends": "five o'clock",
    "filling.mixer": [100, 200],
  } as unknown as RoomParts["room"];
  expect(documentOf({ room })).toMatchObject({
    rails: { strips: [{ thickness: 19, length: 2400 }], lines: [{ id: "A", from: [150, 0], to: [150, 3000] }] },
    filling: { mixer: [100, 200] },
  });
  expect(documentOf({ room }).filling).not.toHaveProperty("day_ends");
  expect(documentOf({ room: { ...room, "rails.lines": [] } }).rails).toMatchObject({ lines: [] });
});

test("a moment has a day that there is, an hour and an offset", () => {
  const right = [EIGHT, NINE, TEN, "2024-02-29T00:00Z", "2026-12-31T23:59:59-11:30"];
  const wrong = ["", "2026-05-04", "2026-05-04T08:00:00", "2026-02-29T08:00:00Z", "2026-13-01T08:00:00Z", "2026-05-04T24:00:00Z", "2026-05-04T08:61:00Z", "4 May 2026 08:00 GMT", "2026-00-01T08:00:00Z", "2026-05-00T08:00:00Z"];
  expect(right.filter((text) => !isMoment(text))).toEqual([]);
  expect(wrong.filter(isMoment)).toEqual([]);
  expect([null, undefined, 5].filter(isMoment)).toEqual([]);
});

/** Values that a field may come to hold: as it should be, emptied, absent, or nonsense. */
const FIELDS = {
  moment: [EIGHT, NINE, TEN, null, undefined, "", "yesterday", "2026-02-30T08:00:00Z"],
  name: ["A", "B", "S1", null, undefined, ""],
  number: [0, 1.5, -2, 600, null, undefined, Number.NaN],
  place: [[900, 1500], [3000, 1500], [-5, 20], [9e9, 0], [1], "here", null, undefined],
  size: [1, 0.5, 0, -1, 40, null, undefined],
};
const SHAPES = {
  placement: { section: "name", at: "place", mixed_at: "moment", placed_at: "moment", screeded_at: "moment", channels_at: "moment" },
  batch: { section: "name", at: "place", mixed_at: "moment", placed_at: "moment", thrown_at: "moment", size: "size" },
  rail_check: { rail: "name", rail_to: "name", from: "number", to: "number", off: "number", length: "number", reversed_off: "number", taken_at: "moment" },
  trued: { rail: "name", lie: "size", from_raise: "number", to_raise: "number", at: "moment" },
  stopped: { at: "moment", until: "moment" },
} as const satisfies Readonly<Record<string, Readonly<Record<string, keyof typeof FIELDS>>>>;

function anyRows<K extends Kind>(kind: K, shape: keyof typeof SHAPES, chance: () => number): readonly Row<K>[] {
  const pick = <T>(from: readonly T[]) => from[Math.floor(chance() * from.length)];
  const fields = () => Object.fromEntries(Object.entries(SHAPES[shape]).map(([name, what]) => [name, pick<unknown>(FIELDS[what])]));
  const what = kind === "entry" ? { what: shape } : {};
  return Array.from({ length: Math.floor(chance() * 5) }, () => row(kind, { ...what, ...fields() }));
}

function anyDocument(seed: number) {
  const chance = randomFrom(seed);
  const entries = [...anyRows("entry", "trued", chance), ...anyRows("entry", "stopped", chance)];
  const [placements, batches] = [anyRows("placement", "placement", chance), anyRows("batch", "batch", chance)];
  return documentOf({ placements, batches, entries, railChecks: anyRows("rail_check", "rail_check", chance) });
}

describe.skipIf(!hasEngine)("whatever the records hold", () => {
  test("the engine takes every part of the document by its own names, and gives a plan and a clock", () => {
    const documents = Array.from({ length: 80 }, (_, seed) => anyDocument(seed + 1));
    const asked = documents.flatMap((document): Asked[] => [["quick_plan", document], ["fill_clock", { document, now: TEN }]]);
    const answers = answersTo(asked);
    expect(answers).toHaveLength(asked.length);
    expect(answers.flatMap(({ problems }) => problems ?? [])).toEqual([]);
    const unknown = answers.flatMap(({ notices }) => (notices ?? []) as readonly { code: string; path: string }[]).filter(({ code }) => code === "unknown_key");
    expect(unknown).toEqual([]);
    const told = (name: string) => documents.some((document) => ((document as unknown as Record<string, readonly unknown[]>)[name] ?? []).length > 1);
    expect(["placements", "batches", "checks", "truings", "stoppages"].filter((name) => !told(name))).toEqual([]);
  }, 60_000);
});
