import { expect, test } from "vitest";
import { columnsOf, meaningOf, sampleOf, withHeights, withMeaning, type Columns } from "../../src/screens/tables/columns";
import { toTake, type Found } from "../../src/screens/tables/found";
import { usualHow, withHow } from "../../src/screens/tables/TableOut";
import { textFromFile } from "../../src/screens/tables/text";
import type { Row } from "../../src/state";
import type { TableInAnswer } from "../../src/wire";

const at = (x: number, y: number, z: number, more: Partial<Found> = {}): Found => ({ at: [x, y], z, down: null, note: "", stage: "subfloor", outside: false, ...more });
const read = (x: number, y: number): Row<"reading"> => ({ kind: "reading", id: `${x}`, fields: { at: [x, y], down: 3 }, sequence: 0, waiting: 0, conflicts: {} });
const FOUND = [at(0, 0, 10), at(1000, 0, 25, { note: "hump" }), at(0, 1000, -5), at(9000, 0, 0, { outside: true })];

test("only the differences of heights count: the highest place lies on the level line, and nothing is below nothing", () => {
  const { setup, readings, outside, isApart } = toTake(FOUND, [], { zero: "relative", already: "again" });
  expect(readings.map(({ down }) => down)).toEqual([15, 0, 30]);
  expect(readings.map(({ note }) => note)).toEqual([undefined, "hump", undefined]);
  expect([setup, outside, isApart]).toEqual([{}, 1, false]);
});

test("heights of a benchmark hang under a level line at nothing", () => {
  const { setup, readings } = toTake(FOUND, [], { zero: "benchmark", already: "again" });
  expect(setup).toEqual({ line_height: 0 });
  expect(readings.map(({ down }) => down)).toEqual([-10, -25, 5]);
});

test("rod readings stay as they are, whatever the heights are said to count from", () => {
  const rods = [at(0, 0, 0, { z: null, down: 812 }), at(500, 0, 0, { z: null, down: 820 })];
  const { setup, readings } = toTake(rods, [], { zero: "benchmark", already: "again" });
  expect([setup, readings.map(({ down }) => down)]).toEqual([{}, [812, 820]]);
});

test("a place read before takes that reading's own numbers, so that it ties; or it is left out, and then nothing ties", () => {
  const before = [read(1010, 5), read(3000, 3000)];
  const again = toTake(FOUND, before, { zero: "relative", already: "again" });
  expect(again.readings.map((one) => one.at)).toEqual([[0, 0], [1010, 5], [0, 1000]]);
  expect([again.met, again.isApart]).toEqual([1, false]);
  const skip = toTake(FOUND, before, { zero: "relative", already: "skip" });
  expect(skip.readings.map((one) => one.at)).toEqual([[0, 0], [0, 1000]]);
  expect([skip.met, skip.isApart]).toEqual([1, true]);
});

test("of two points that fall on one place read before, one is taken: a set-up reads a place once", () => {
  const close = [at(1000, 0, 5), at(1020, 0, 6), at(0, 0, 7)];
  expect(toTake(close, [read(1010, 0)], { zero: "relative", already: "again" }).readings).toHaveLength(2);
});

test("the bed's own points do not tie with the subfloor's", () => {
  expect(toTake([at(1000, 0, 5, { stage: "bed" })], [read(1000, 0)], { zero: "relative", already: "again" }).met).toBe(0);
});

const COLUMNS: Columns = { point: 0, northing: 1, easting: 2, elevation: 3, down: null, description: 4 };

test("a column holds one thing, and a thing stands in one column", () => {
  const changed = withMeaning(COLUMNS, 1, "easting");
  expect(changed).toEqual({ ...COLUMNS, northing: null, easting: 1 });
  expect([meaningOf(changed, 1), meaningOf(changed, 2)]).toEqual(["easting", "none"]);
  expect(withMeaning(COLUMNS, 4, "none").description).toBeNull();
});

test("heights taken as rod readings move the column with them, and back", () => {
  const rods = withHeights(COLUMNS, "down");
  expect([rods.down, rods.elevation]).toEqual([3, null]);
  expect(withHeights(rods, "elevation")).toEqual(COLUMNS);
  expect(withHeights({ ...COLUMNS, down: 5 }, "down").elevation).toBe(3);
});

test("a column shows its first cells, the header apart", () => {
  const answer = { columns: COLUMNS, header: true, first_rows: [["P", "N"], ["1", "2,5"], ["2", ""], ["3", "4"]] } as unknown as TableInAnswer;
  expect([sampleOf(answer, 1), sampleOf(answer, 7)]).toEqual(["2,5 · 4", ""]);
  expect(columnsOf(answer)).toEqual(COLUMNS);
});

test("where a comma begins the decimals a semicolon parts the columns, and never is one sign both", () => {
  expect(usualHow("es-ES", false)).toEqual({ unit: "m", separator: "semicolon", decimal: "comma" });
  expect(usualHow("en-US", true)).toEqual({ unit: "ft", separator: "comma", decimal: "point" });
  const how = usualHow("en-US", true);
  expect(withHow(how, { decimal: "comma" }).separator).toBe("semicolon");
  expect(withHow({ ...how, decimal: "comma", separator: "tab" }, { separator: "comma" })).toMatchObject({ separator: "comma", decimal: "point" });
});

test("a file's text is read as it was written: UTF-8, UTF-16 or the old page of Western computers", async () => {
  const text = "1;2,5;Tür ½";
  const utf16 = new Uint8Array([0xff, 0xfe, ...Array.from(text, (sign) => [sign.charCodeAt(0) & 0xff, sign.charCodeAt(0) >> 8]).flat()]);
  const western = new Uint8Array(Array.from(text, (sign) => sign.charCodeAt(0)));
  for (const bytes of [new TextEncoder().encode(text), utf16, western]) expect(await textFromFile(new Blob([bytes]))).toBe(text);
});
