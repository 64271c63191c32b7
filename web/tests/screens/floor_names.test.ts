/** Records of the floor by names that a person understands, and their values in words, in both languages. */
import { afterEach, expect, test } from "vitest";
import { recordName } from "../../src/screens/common/recordName";
import { mayPutBack } from "../../src/screens/history/restoring";
import { storyOf } from "../../src/screens/history/story";
import { fieldName, valueText } from "../../src/screens/history/values";
import type { Kind } from "../../src/wire";
import { reader } from "../../src/words";

afterEach(() => (reader.value = { units: "imperial", language: "en" }));

const NINE = "2026-05-04T09:42:00";
const NAMED: readonly (readonly [Kind, Readonly<Record<string, unknown>>, RegExp, RegExp])[] = [
  ["batch", { mixed_at: NINE, section: "S1" }, /^Batch · .*9:42.* · Section S1$/, /^Amasada · .*9:42.* · Tramo S1$/],
  ["batch", { mixed_at: NINE }, /^Batch · [^·]*9:42[^·]*$/, /^Amasada · [^·]*9:42[^·]*$/],
  ["station", { rail: "B", at: [152.4, 1219.2], shim: 3 }, /^Station on rail B, 6\u2033 across, 4\u2032.0\u2033 up$/, /^Punto de la maestra B, 152.4.mm a lo ancho, 1219.2.mm hacia arriba$/],
  ["rail_check", { rail: "B", off: 1 }, /^Level on rail B$/, /^Nivel sobre la maestra B$/],
  ["rail_check", { rail: "B", rail_to: "C", off: 1 }, /^Level across rails B and C$/, /^Nivel entre las maestras B y C$/],
  ["entry", { what: "note", at: NINE, text: "Crack by the door" }, /^Crack by the door · .*9:42/, /^Crack by the door · .*9:42/],
  ["entry", { what: "stopped", at: NINE }, /^Work stopped · .*9:42/, /^Trabajo parado · .*9:42/],
  ["entry", { what: "sang", at: NINE }, /^Day book · .*9:42/, /^Diario de obra · .*9:42/],
  ["station", { rail: "B" }, /^Station$/, /^Punto$/],
  ["rail_check", {}, /^Level on a rail$/, /^Nivel sobre una maestra$/],
];

test.each(NAMED)("a %s %o has a name", (kind, fields, english, spanish) => {
  expect(recordName(kind, "elsewhere", fields)).toMatch(english);
  reader.value = { units: "metric", language: "es" };
  expect(recordName(kind, "elsewhere", fields)).toMatch(spanish);
});

test("what was chosen and read is told in the person's units, with a sign where it says high or low", () => {
  const told = () => [
    valueText("room", "rails.strips", [{ thickness: 19.05, length: 2438.4, count: 6 }]),
    valueText("room", "rails.lines", [{ id: "A", from: [152.4, 0], to: [152.4, 2438.4] }]),
    valueText("room", "rails.lines", []),
    valueText("room", "filling.mixer", [304.8, 609.6]),
    valueText("rail_check", "off", 1.5875),
    valueText("rail_check", "reversed_off", -1.5875),
    valueText("entry", "from_raise", 0),
    valueText("rail_check", "typed", { off: "1/16", reversed_off: "0" }),
    valueText("entry", "what", "habit"),
    valueText("entry", "code", "E1"),
  ].map((text) => text.replace(/[\u00a0\u202f]/g, " "));
  expect(told()).toEqual([
    "6 × 8′ 0″, 3/4″ thick", "A: from 6″ across, 0″ up, to 6″ across, 8′ 0″ up", "nothing", "1′ 0″ across, 2′ 0″ up", "+1/16″", "−1/16″", "0″", "1/16; 0",
    "A reminder ticked", "E1",
  ]);
  reader.value = { units: "metric", language: "es" };
  expect(told()).toEqual([
    "6 × 2438.4 mm, 19 mm de grueso", "A: desde 152.4 mm a lo ancho, 0 mm hacia arriba, hasta 152.4 mm a lo ancho, 2438.4 mm hacia arriba", "nada",
    "304.8 mm a lo ancho, 609.6 mm hacia arriba", "+1.5 mm", "−1.5 mm", "0 mm", "1/16; 0", "Un recordatorio marcado", "E1",
  ]);
});

test("a field with a dot has its word, and one that this version does not write is not put back", () => {
  expect([fieldName("room", "rails.lines"), fieldName("room", "filling.mixer"), fieldName("photo", "entry_id")]).toEqual(["Rails as placed by hand", "Where the mixer stands", "In the day book at"]);
  const line = (field: string) => ({ field, before: ["A:0"], after: [], isConcurrent: false, isOverruled: false });
  expect(fieldName("room", "rails.set_stations")).toBe("Something this version does not know");
  expect([mayPutBack("room", line("rails.set_stations"), ["A:0"]), mayPutBack("room", line("rails.lines"), null)]).toEqual([false, true]);
  expect([mayPutBack("entry", line("what"), "note"), mayPutBack("entry", line("until"), null), mayPutBack("batch", line("room_id"), "r")]).toEqual([false, true, false]);
});

test("a change of which today's meaning leaves nothing is no step of the story", () => {
  const entry = { person: "Ana", device_id: "d", device_name: "phone", at: `${NINE}Z`, replaced: {}, concurrent: [], overruled: [] };
  const entries = [{ ...entry, sequence: 1, change_id: "a", fields: { name: "Bath" } }, { ...entry, sequence: 2, change_id: "b", fields: {} }];
  expect(storyOf([{ entries, unsent: [] }]).steps.map(({ id, what }) => [id, what])).toEqual([["a", "made"]]);
});
