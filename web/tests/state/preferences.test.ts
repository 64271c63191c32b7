import { expect, test } from "vitest";
import { checkPreferences } from "../../src/state/preferences";

const FIRST = { language: "en", units: "imperial", theme: "light" } as const;

test("kept choices hold; what is missing, unknown or damaged falls back to the first start's", () => {
  expect(checkPreferences('{"language":"es","units":"metric","theme":"sun"}', FIRST)).toEqual({
    language: "es",
    units: "metric",
    theme: "sun",
  });
  expect(checkPreferences('{"language":"xx","units":"metric"}', FIRST)).toEqual({ ...FIRST, units: "metric" });
  for (const text of [null, "", "{", "3", "null", "[]"]) expect(checkPreferences(text, FIRST)).toEqual(FIRST);
});
