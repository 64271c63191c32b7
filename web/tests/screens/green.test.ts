import { expect, test } from "vitest";
import { cautionsNow, isGreenNow } from "../../src/screens/checking/green";

const FILL_END = Date.parse("2026-05-04T10:00:00Z");
const GREEN_END = Date.parse("2026-05-04T20:00:00Z");
const GREEN_BED = { is_green: true, green_until: "2026-05-04T20:00:00Z" };
const ADVICE = [
  { code: "work_green", text: "", where: "flatness.work", values: { fill_until: "2026-05-04T10:00:00+00:00" } },
  { code: "work_cut", text: "", where: "flatness.work", values: { most: 30 } },
];

function toldAt(now: number) {
  return cautionsNow(ADVICE, isGreenNow(GREEN_BED, now), now);
}

test("fresh mortar is advised until its time is over, rubbing until the bed is hard, and grinding after", () => {
  const told = [FILL_END - 1, FILL_END, GREEN_END - 1, GREEN_END].map((now) => toldAt(now)[0]?.code);
  expect(told).toEqual(["work_green", "work_green_set", "work_green_set", "work_hardened"]);
  expect(toldAt(FILL_END)[0]?.values).toEqual(ADVICE[0]?.values);
  expect([FILL_END - 1, FILL_END, GREEN_END].map((now) => toldAt(now)[1])).toEqual([ADVICE[1], ADVICE[1], ADVICE[1]]);
});

test("mortar that no longer bonded when the bed was last measured never bonds again, and a bed once hard stays so", () => {
  const late = [{ code: "work_green_set", text: "", where: "flatness.work", values: { fill_until: "2026-05-04T10:00:00+00:00" } }];
  expect(cautionsNow(late, true, FILL_END - 1)).toEqual(late);
  expect(cautionsNow(late, false, GREEN_END)[0]?.code).toBe("work_hardened");
  expect(isGreenNow({ is_green: false, green_until: "2026-05-04T20:00:00Z" }, FILL_END)).toBe(false);
  expect(isGreenNow({ is_green: true, green_until: null }, GREEN_END)).toBe(true);
});
