import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { feetInches, heightText, inchesOnly, lengthFromText, lengthText, type Unit } from "../../src/units";

interface ReadVector {
  readonly text: string;
  readonly default_unit: Unit;
  readonly length?: number;
  readonly problem?: string;
}

interface PrintVector {
  readonly length: number;
  readonly form: "feet_inches" | "inches" | "decimal";
  readonly denominator?: number;
  readonly unit?: Unit;
  readonly printed: string;
}

interface Vectors {
  readonly tolerance: number;
  readonly read: readonly ReadVector[];
  readonly print: readonly PrintVector[];
}

const VECTORS = JSON.parse(readFileSync(new URL("../../../tests/vectors/lengths.json", import.meta.url), "utf8")) as Vectors;

/** The screen's signs in the engine's plain ones. */
function plain(text: string): string {
  return text.replaceAll("\u2032", "'").replaceAll("\u2033", '"').replace(/[\u00a0\u202f]/g, " ").replace("\u2212", "-");
}

test("the vectors hold lengths, refusals and printed forms", () => {
  expect(VECTORS.read.filter(({ length }) => length !== undefined).length).toBeGreaterThan(50);
  expect(VECTORS.read.filter(({ problem }) => problem !== undefined).length).toBeGreaterThan(20);
  expect(VECTORS.print.length).toBeGreaterThan(20);
});

test.each(VECTORS.read)("$text in $default_unit reads as the engine reads it", ({ text, default_unit, length, problem }) => {
  const read = lengthFromText(text, default_unit);
  if (length === undefined) expect(read).toEqual({ problem });
  else expect("mm" in read ? Math.abs(read.mm - length) : Infinity).toBeLessThanOrEqual(VECTORS.tolerance * Math.max(1, Math.abs(length)));
});

const IN_FEET = VECTORS.print.filter(({ form }) => form !== "decimal");
test.each(IN_FEET)("$length mm is printed as $printed", ({ length, form, denominator, printed }) => {
  const text = form === "inches" ? inchesOnly(length, denominator ?? 16) : feetInches(length, denominator ?? 16);
  expect(plain(text)).toBe(printed);
});

test("every sixteenth up to two feet, shown and typed back, is the same length to the last bit", () => {
  for (let sixteenths = 0; sixteenths <= 24 * 16; sixteenths += 1) {
    const mm = (sixteenths * 254) / 160;
    expect(lengthFromText(feetInches(mm), "in")).toEqual({ mm });
    expect(lengthFromText(inchesOnly(-mm), "in")).toEqual({ mm: mm === 0 ? 0 : -mm });
  }
});

test("metric lengths carry no mark between thousands, and grow to metres beyond ten", () => {
  const metric = { units: "metric", language: "en" } as const;
  expect(plain(lengthText(1049.3, metric))).toBe("1049.3 mm");
  expect(plain(lengthText(13544.5, metric))).toBe("13.545 m");
});

test("half a millimetre above the benchmark has its plus, as every height above it", () => {
  const metric = { units: "metric", language: "en" } as const;
  expect([heightText(0.5, metric), heightText(0.2, metric), heightText(-0.5, metric), heightText(3, metric)]).toEqual(["+0.5\u202fmm", "0\u202fmm", "\u22120.5\u202fmm", "+3\u202fmm"]);
});
