import { expect, test } from "vitest";
import { en } from "../../src/words/en";
import { es } from "../../src/words/es";
import { blanksOf, filled } from "../../src/words/say";

const KEYS = Object.keys(en) as (keyof typeof en)[];
const IMPERIAL = { units: "imperial", language: "en" } as const;
const METRIC = { units: "metric", language: "es" } as const;

test("both languages have the same keys", () => {
  expect(Object.keys(es).sort()).toEqual([...KEYS].sort());
});

test("no key stands in two files: the second would silently take the place of the first", () => {
  const files = import.meta.glob<Record<string, Record<string, string>>>("../../src/words/{en,es}/*.ts", { eager: true });
  for (const language of ["en", "es"]) {
    const ofLanguage = Object.entries(files).filter(([path]) => path.includes(`/${language}/`));
    const keys = ofLanguage.flatMap(([, file]) => Object.values(file).flatMap((words) => Object.keys(words)));
    expect(keys.length).toBeGreaterThanOrEqual(KEYS.length);
    expect(keys.filter((key, n) => keys.indexOf(key) !== n), language).toEqual([]);
  }
});

test("every sentence has the same blanks in both languages", () => {
  for (const key of KEYS) expect([...new Set(blanksOf(es[key]))], key).toEqual([...new Set(blanksOf(en[key]))]);
});

test("no sentence is empty, and no long one was left in English", () => {
  for (const key of KEYS) {
    expect(es[key].trim(), key).not.toBe("");
    if (en[key].replace(/\{[^}]*\}/g, "").trim().split(" ").length > 3) expect(es[key], key).not.toBe(en[key]);
  }
});

test("a blank writes its value in the person's units", () => {
  expect(filled("{d:depth} at {x:length}", { d: 33.3375, x: 1049.3375 }, IMPERIAL)).toBe("1\u00a05/16\u2033 at 3\u2032\u00a05\u00a05/16\u2033");
  expect(filled("{d:depth}", { d: 33.3375 }, METRIC)).toBe("33.5\u202fmm");
  expect(filled("{t:temperature}", { t: 20 }, IMPERIAL)).toBe("68\u202f°F");
});

test("a blank without a value stays empty, and a text is written as it is", () => {
  expect(filled("<{a}> <{b:length}>", { b: "wall" }, IMPERIAL)).toBe("<> <wall>");
});

test("every way of writing that a blank asks for exists", () => {
  const kinds = KEYS.flatMap((key) => blanksOf(en[key])).map((blank) => /:(\w+)/.exec(blank)?.[1]).filter((kind) => kind !== undefined);
  for (const kind of new Set(kinds)) {
    const plain = filled("{v}", { v: 1234.5 }, IMPERIAL);
    const isText = ["moment", "dated", "clock", "hour", "soon", "soon_hour"].includes(kind);
    const written = isText ? filled(`{v:${kind}}`, { v: "2026-05-04T08:30:00Z" }, IMPERIAL) : filled(`{v:${kind}}`, { v: 1234.5 }, IMPERIAL);
    if (kind !== "number") expect(written, kind).not.toBe(isText ? "2026-05-04T08:30:00Z" : plain);
  }
});

test("one of a thing is told as one, any other number as many", () => {
  const rooms = (count: number) => filled("{count} {count|room|rooms}", { count }, IMPERIAL);
  expect([rooms(0), rooms(1), rooms(2)]).toEqual(["0 rooms", "1 room", "2 rooms"]);
  expect(blanksOf("{left|falta|faltan} {left} {left|punto|puntos}")).toEqual(["{left}", "{left}", "{left}"]);
});

test("a text that ends in a stop ends its sentence by itself", () => {
  expect(filled("Se para a las {at}.", { at: "7:30 p.m." }, METRIC)).toBe("Se para a las 7:30 p.m.");
  expect(filled("A las {at}, luego {at}. Fin.", { at: "7:30 p.m." }, METRIC)).toBe("A las 7:30 p.m., luego 7:30 p.m. Fin.");
  expect(filled("Section {at}.", { at: "4" }, IMPERIAL)).toBe("Section 4.");
});
