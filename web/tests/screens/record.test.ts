/** The record's own arithmetic: hashes, what is later than a signature, tables for spreadsheets, lines of one value. */
import { createHash } from "node:crypto";
import { afterEach, describe, expect, test } from "vitest";
import { canonicalText, hashOf } from "../../src/screens/common/canonical";
import { changesBetween } from "../../src/screens/record/changes";
import { contentFromCopy, copyFrom, type Content, type KeptRow } from "../../src/screens/record/content";
import { csvText, type CsvHow } from "../../src/screens/record/csv";
import { isolines } from "../../src/screens/record/isolines";
import { pageRules } from "../../src/screens/record/paper";
import { telling } from "../../src/screens/record/profileLine";
import { cellsOf, shownText, type Table } from "../../src/screens/record/table";
import { cautionsTable, fallsTable, temperaturesTable, typedTemperatures, waterTable } from "../../src/screens/record/tablesOfCheck";
import { lastLooked } from "../../src/screens/record/useContent";
import { unfinishedOf } from "../../src/screens/record/unfinished";
import { session } from "../../src/state/status";
import type { Plan, RoomDocument } from "../../src/wire";
import { reader } from "../../src/words";

const COMMAS: CsvHow = { separator: "comma", decimal: "point", hasMark: false };

describe("the canonical text of a document", () => {
  /** RFC 8785, section 3.2.3 and 3.2.2.3: keys by their UTF-16 code units, numbers as ECMAScript writes them. */
  test("orders keys and writes numbers as RFC 8785 shows", () => {
    const given = JSON.parse('{"\\u20ac":"Euro Sign","\\r":"Carriage Return","\\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\\ud83d\\ude00":"Emoji: Grinning Face","\\u0080":"Control","\\u00f6":"Latin Small Letter O With Diaeresis"}') as object;
    const keys = Object.keys(JSON.parse(canonicalText(given)) as object).filter((key) => key !== "1");
    expect(keys).toEqual(["\r", "\u0080", "\u00f6", "\u20ac", "\ud83d\ude00", "\ufb33"]);
    expect(canonicalText(JSON.parse("[333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001, -0]"))).toBe("[333333333.3333333,1e+30,4.5,0.002,1e-27,0]");
  });

  test("is the same however keys came, and leaves out what has no value", () => {
    expect(canonicalText({ b: [1, { d: null, c: "x" }], a: undefined })).toBe(canonicalText({ b: [1, { c: "x", d: null }] }));
  });

  test("has the SHA-256 that Node finds", () => {
    const value = { readings: [{ id: "r1", down: 1041.4 }], outline: {}, name: "baño" };
    expect(hashOf(value)).toBe(createHash("sha256").update(canonicalText(value), "utf8").digest("hex"));
  });
});

function noteOf(text: string): KeptRow<"entry"> {
  return { kind: "entry", id: "e1", fields: { what: "note", text } };
}

function contentOf(changed: Partial<Content> = {}, document: Partial<RoomDocument> = {}): Content {
  const reading = { id: "r1", down: 1000, at: [0, 0] as const, as_typed: "1000" };
  return {
    record: 1, made_at: "2026-05-05T10:00:00Z", room_id: "room", job: { name: "Mill End", place: "" }, room: { job_id: "job", name: "Hall" }, zone: "UTC",
    document: { document: 1, outline: {}, readings: [reading], bed: { minimum_thickness: 32, covering: { tile_thickness: 9 } }, ...document },
    plan: {} as Plan, waiting: null, profile: null, rows: [noteOf("dry")], story: { at: null, decided: [] }, ...changed,
  };
}

describe("what is later than a signature", () => {
  test("is nothing where nothing changed, whenever the record was put together", () => {
    expect(changesBetween(contentOf(), contentOf({ made_at: "2027-01-01T00:00:00Z" }))).toEqual([]);
  });

  test("names a choice of the room by its own field", () => {
    const now = contentOf({}, { bed: { minimum_thickness: 40, covering: { tile_thickness: 9 }, build: "bonded" } });
    expect(changesBetween(contentOf(), now)).toEqual([
      { kind: "room", id: "room", field: "bed.minimum_thickness", what: "changed", before: 32, after: 40 },
      { kind: "room", id: "room", field: "bed.build", what: "added", before: null, after: "bonded" },
    ]);
  });

  test("tells records that came, went and changed", () => {
    const reading = { id: "r2", down: 990, at: [500, 0] as const };
    const now = contentOf({ rows: [noteOf("damp")] }, { readings: [reading] });
    const found = changesBetween(contentOf(), now).map(({ kind, id, field, what }) => [kind, id, field, what]);
    expect(found).toEqual([["reading", "r1", null, "removed"], ["entry", "e1", "text", "changed"], ["reading", "r2", null, "added"]]);
  });

  test("is the same from a copy that was kept as text", () => {
    const copy = contentFromCopy(copyFrom(contentOf()));
    expect(copy && changesBetween(copy, contentOf())).toEqual([]);
  });
});

test("a text that is no copy of ours, or of a later version, is none", () => {
  for (const text of ["", "{", "null", "[]", '{"record":2,"document":{},"plan":{},"rows":[]}']) expect(contentFromCopy(text)).toBeNull();
});

describe("a table for spreadsheets", () => {
  test("quotes what it must and ends its lines by CR LF (RFC 4180)", () => {
    expect(csvText(["a", "b"], [['say "dry"', "one\ntwo"], ["x,y", null]], COMMAS)).toBe('a,b\r\n"say ""dry""","one\ntwo"\r\n"x,y",\r\n');
  });

  test("makes words safe that would be taken for a formula, and leaves numbers alone", () => {
    expect(csvText(["=sum"], [["+1"], ["-"], ["@x"], [-3.2], [0]], COMMAS)).toBe("'=sum\r\n'+1\r\n'-\r\n'@x\r\n-3.2\r\n0\r\n");
  });

  test("writes numbers without exponents and without digits that are only the machine's", () => {
    expect(csvText(["n"], [[1041.4 / 25.4], [1e-9], [123456789], [-0]], COMMAS)).toBe("n\r\n41\r\n0\r\n123456789\r\n0\r\n");
  });

  test("may have decimal commas, tabs, and the mark of UTF-8", () => {
    expect(csvText(["n", "m"], [[0.5, 2]], { separator: "semicolon", decimal: "comma", hasMark: true })).toBe("\ufeffn;m\r\n0,5;2\r\n");
    expect(csvText(["n"], [["a\tb"]], { ...COMMAS, separator: "tab" })).toBe('n\r\n"a\tb"\r\n');
  });
});

describe("one table told once", () => {
  const table: Table = {
    id: "t", title: "T", none: "", columns: [{ title: "Depth", measure: "depth" }, { title: "Place", measure: "place" }, { title: "When", measure: "moment" }, { title: "Warmth", measure: "temperature" }],
    rows: [[25.4, [254, -127], "2026-05-05T10:00:00Z", 20], [null, null, null, null]],
  };
  afterEach(() => { reader.value = { units: "imperial", language: "en" }; });

  test("has its unit in the header and its numbers in that unit", () => {
    reader.value = { units: "imperial", language: "en" };
    expect(cellsOf(table)).toEqual({
      header: ["Depth (in)", "Place, across (in)", "Place, up (in)", "When", "Warmth (°F)"],
      rows: [[1, 10, -5, "2026-05-05T10:00:00Z", 68], [null, null, null, null, null]],
    });
    reader.value = { units: "metric", language: "es" };
    expect(cellsOf(table).rows[0]).toEqual([25.4, 254, -127, "2026-05-05T10:00:00Z", 20]);
  });

  test("says on the screen what nobody told, and the year of every moment", () => {
    expect(shownText(null, "length")).toBe("—");
    expect(shownText("2026-05-05T12:00:00Z", "moment")).toContain("2026");
  });
});

describe("lines of one value", () => {
  test("run on from piece to piece, whichever way round each was", () => {
    const pieces = [[[0, 0, 0], [10, 0, 10], [0, 10, 0]], [[10, 0, 10], [10, 10, 10], [0, 10, 0]]] as const;
    const [line, ...others] = isolines(pieces, 5);
    expect(others).toEqual([]);
    expect(line?.map(([x, y]) => [Math.round(x), Math.round(y)]).sort()).toEqual([[5, 0], [5, 10], [5, 5]].sort());
  });

  test("there are none where no piece has the value", () => {
    expect(isolines([[[0, 0, 0], [10, 0, 1], [0, 10, 2]]], 5)).toEqual([]);
  });
});

describe("the line of the profile", () => {
  const outline = { vertices: [[0, 0], [4000, 0], [4000, 2000], [0, 2000]] } as unknown as Plan["outline"];
  const bedOf = (min_at: readonly number[], max_at: readonly number[]) => ({ thickness: { min_at, max_at } }) as unknown as Plan["bed"];

  test("goes from wall to wall through the thinnest and the thickest place", () => {
    expect(telling({ outline, bed: bedOf([1000, 500], [3000, 1500]) })).toEqual({ from: [0, 0], to: [4000, 2000] });
    expect(telling({ outline, bed: bedOf([1000, 500], [1000, 1500]) })).toEqual({ from: [1000, 0], to: [1000, 2000] });
  });

  test("lies along the middle under an even bed", () => {
    expect(telling({ outline, bed: bedOf([10, 10], [10, 10]) })).toEqual({ from: [0, 1000], to: [4000, 1000] });
  });
});

test("the foot of a page ends where it should, whatever a room is called", () => {
  const rules = pageRules("a4", 'Hall "B" \\ }', "Page # of");
  expect(rules).toContain("size: A4");
  expect(rules).toContain('content: "Hall \\22 B\\22  \\5c  }"');
});

describe("what is unfinished when somebody signs", () => {
  const bare = {
    levels: { suspects: [], untied: [] }, sections: [{ id: "S1", order: 1, polygon: [[0, 0], [9, 0], [9, 9]] }], readiness: [{ milestone: "walk" }], flatness: null,
  };
  const planOf = (changed: object) => ({ ...bare, ...changed }) as unknown as Plan;
  const placed: KeptRow<"placement"> = { kind: "placement", id: "p1", fields: { section: "S1", placed_at: "2026-05-04T15:00:00Z" } };
  const ticked: KeptRow<"entry"> = { kind: "entry", id: "t1", fields: { what: "milestone", code: "walk", at: "2026-05-05T08:00:00Z" } };

  test("is told in the order of the job", () => {
    const plan = planOf({ levels: { suspects: [{}, {}], untied: [{ setup: "t", readings: 9 }] }, flatness: { verdict: "beyond", level: { standing_water: [[1, 2]] }, work: [{ done_at: null }, { done_at: "2026-05-05T08:00:00Z" }] } });
    expect(unfinishedOf(contentOf({ plan, rows: [] }))).toEqual([
      "Readings that the others do not bear out: 2.", "Readings that nothing ties to the others, so that they tell of no height: 9.", "Sections not marked as placed: 1 of 1.", "The bed is beyond its limits of flatness.",
      "Places still to rub down or fill up: 1.", "Low places where water would stand: 1.", "Milestones that nobody has let pass: Walk on it.",
    ]);
  });

  test("holds that the office has not told the story, on a phone of an office alone", () => {
    const content = contentOf({ plan: planOf({ flatness: { verdict: "within", work: [] } }), rows: [placed, ticked] });
    expect(unfinishedOf(content)).toEqual([]);
    const before = session.value;
    session.value = { ...before, joined: true };
    expect(unfinishedOf(content)).toHaveLength(1);
    expect(unfinishedOf({ ...content, story: { at: "2026-05-05T10:00:00Z", decided: [] } })).toEqual([]);
    session.value = before;
  });

  test("is never nothing where the bed was not checked, and nothing where all was done", () => {
    expect(unfinishedOf(contentOf({ plan: planOf({}), rows: [placed, ticked] }))).toEqual(["The flatness of the bed was never checked."]);
    expect(unfinishedOf(contentOf({ plan: planOf({ flatness: { verdict: "within", work: [] } }), rows: [placed, ticked] }))).toEqual([]);
  });
});

describe("what a record hands on of falls, weather and cautions", () => {
  const caution = (code: string) => ({ code, text: code, where: "", values: {} });
  const level = { falls: [{ facet: 0, designed: 0.02, fall: 0.0125, readings: 9 }], standing_water: [[300, 400]] };
  const bed = { top: [{ polygon: [[0, 0], [600, 0], [600, 300], [0, 300]] }] };
  const plan = { bed, cautions: [caution("prediction")], flatness: { level } } as unknown as Plan;
  const curve = [{ at: "2026-05-04T15:00:00Z" }, { at: "2026-05-06T15:00:00Z" }];
  const waiting = { placed_at: "2026-05-04T15:00:00Z", curve, cautions: [caution("prediction"), caution("unvented_heater")] } as unknown as Content["waiting"];
  const day = (date: string) => ({ low: -2, high: 9, low_at: `2026-05-${date}T06:00:00Z`, high_at: `2026-05-${date}T15:00:00Z`, wind: 20 });
  const content = contentOf({ plan, waiting, rows: [] }, { forecast: [day("05"), day("28")] });

  test("cautions of the waiting stand among them, each once", () => {
    expect(cautionsTable(content).rows).toHaveLength(2);
    expect(cautionsTable({ ...content, waiting: null }).rows).toHaveLength(1);
  });

  test("a fall is told as asked for and as built, in percent for spreadsheets", () => {
    reader.value = { units: "metric", language: "en" };
    expect(cellsOf(fallsTable(content)).rows).toEqual([[300, 150, 2, 1.25, 9]]);
    reader.value = { units: "imperial", language: "en" };
    expect(waterTable(content).rows).toEqual([[[300, 400]]]);
  });

  test("days foretold stand by their coldest and warmest hour, as far as the waiting reaches", () => {
    const rows = typedTemperatures(content).rows.map((row) => [row[0], row[2], row[4]]);
    expect(rows).toEqual([["2026-05-05T06:00:00Z", -2, null], ["2026-05-05T15:00:00Z", 9, 20]]);
    expect(temperaturesTable({ ...content, waiting: null }).rows).toHaveLength(4);
  });
});

test("the waiting is told up to its last window or look, and up to now where nothing is placed", () => {
  const now = "2026-06-01T08:00:00Z";
  const readinessOf = (rows: readonly object[]) => ({ readiness: rows }) as unknown as Plan;
  const late = { late: "2026-05-12T09:00:00+02:00", ticked: null };
  expect(lastLooked(readinessOf([{ late: null, ticked: null }]), now)).toBe(now);
  expect(lastLooked(readinessOf([late, { late: null, ticked: null }]), now)).toBe("2026-05-12T07:00:00.000Z");
  expect(lastLooked(readinessOf([late, { late: null, ticked: { at: "2026-05-20T07:00:00Z" } }]), now)).toBe("2026-05-20T07:00:00.000Z");
  expect(lastLooked(readinessOf([{ late: "2026-07-01T07:00:00Z", ticked: null }]), now)).toBe(now);
});
