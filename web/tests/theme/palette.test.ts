import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { lightness, SIGHTS } from "./colour_sight";

const PALETTE = readFileSync(new URL("../../src/theme/palette.css", import.meta.url), "utf8");
const STEPS = [1, 2, 3, 4, 5, 6, 7] as const;
/** Neighbouring steps differ by this much of L*: a step of 2 is just seen; in the sun a screen loses most of it. */
const LEAST_STEP = 6;
/** The least and the greatest differ by this much, so that high and low are never taken for one another. */
const LEAST_SPAN = 50;

/** The colours of a theme: its own, over those of the first. */
function coloursOf(theme: "light" | "dark" | "sun"): ReadonlyMap<string, string> {
  const blocks = PALETTE.split(/^(?=:root|\[data-theme)/m);
  const named = blocks.filter((block) => block.startsWith(":root") || block.startsWith(`[data-theme="${theme}"]`));
  return new Map(named.flatMap((block) => [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name = "", colour = ""]) => [name, colour])));
}

function rampOf(theme: "light" | "dark" | "sun", name: string): readonly string[] {
  const colours = coloursOf(theme);
  return STEPS.map((step) => colours.get(`${name}-${step}`) ?? "");
}

const CASES = (["light", "dark", "sun"] as const).flatMap((theme) =>
  (["ground", "bed", "doubt"] as const).flatMap((name) =>
    (Object.keys(SIGHTS) as (keyof typeof SIGHTS)[]).map((sight) => [theme, name, sight] as const),
  ),
);

test.each(CASES)("in %s, every step of %s is lighter or darker than the one before, in the same way, to eyes with %s", (theme, name, sight) => {
  const ramp = rampOf(theme, name).map((colour) => lightness(colour, SIGHTS[sight]));
  const way = name === "ground" ? 1 : -1;
  const steps = ramp.slice(1).map((light, index) => way * (light - (ramp[index] ?? light)));
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(LEAST_STEP);
  expect(way * ((ramp.at(-1) ?? 0) - (ramp[0] ?? 0))).toBeGreaterThanOrEqual(LEAST_SPAN);
});

const TWO_SIDED = CASES.filter(([, name]) => name === "ground").map(([theme, , sight]) => [theme, sight] as const);

test.each(TWO_SIDED)("in %s, the bed's map is palest where it is true and darker by steps both ways, to eyes with %s", (theme, sight) => {
  const ramp = rampOf(theme, "flat").map((colour) => lightness(colour, SIGHTS[sight]));
  const middle = ramp[3] ?? 0;
  for (const way of [ramp.slice(3), ramp.slice(0, 4).reverse()]) {
    const steps = way.slice(1).map((light, index) => (way[index] ?? light) - light);
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(LEAST_STEP);
    expect(middle - (way.at(-1) ?? 0)).toBeGreaterThanOrEqual(LEAST_SPAN);
  }
});

test("lightness is that of the standard: black, middle grey and white, whatever the sight", () => {
  for (const sight of Object.values(SIGHTS)) {
    expect(lightness("#000000", sight)).toBeCloseTo(0, 6);
    expect(lightness("#777777", sight)).toBeCloseTo(50.03, 1);
    expect(lightness("#ffffff", sight)).toBeCloseTo(100, 1);
  }
});

test("pure red is dark to eyes without the red cone, as they have it, and hardly darker to those without the blue one", () => {
  const red = (sight: keyof typeof SIGHTS) => lightness("#ff0000", SIGHTS[sight]);
  expect(red("protanopia")).toBeLessThan(red("whole") - 8);
  expect(Math.abs(red("tritanopia") - red("whole"))).toBeLessThan(8);
});
