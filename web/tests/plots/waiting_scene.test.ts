import { describe, expect, test } from "vitest";
import { evaporationScene } from "../../src/plots/evaporationScene";
import { ageAt, shownTemperature, tablePoints, waitingScene } from "../../src/plots/waitingScene";
import type { WaitingAnswer } from "../../src/wire";

const EIGHT = Date.parse("2026-06-01T08:00:00Z");
const HOUR = 3_600_000;
const at = (hours: number) => new Date(EIGHT + hours * HOUR).toISOString();
const METRIC = { units: "metric" } as const;

/** 40 hours at 10 °C, half as fast as at the reference, the first 10 of them measured; a window from 20 to 30 h. */
function answer(changed: Partial<WaitingAnswer> = {}, last = 40): WaitingAnswer {
  const curve = Array.from({ length: last + 1 }, (_, hour) => ({ at: at(hour), hours: hour, celsius: 10, age: hour / 2, factor: hour * 20, measured: hour <= 10 }));
  const countdown = [{ milestone: "walk", early: at(20), likely: at(24), late: at(30), state: "waiting", share: 0, hours_left: 24, ticked: null }];
  return { method: "equivalent_age", now: at(5), placed_at: at(0), celsius_now: 10, curve, countdown, spells: [], evaporation: [], ...changed } as unknown as WaitingAnswer;
}

describe("the waiting as it is drawn", () => {
  test("what was measured is one run, what is foretold the next, and they meet", () => {
    const scene = waitingScene(answer(), 360, METRIC);
    expect(scene?.warmth.map(({ measured }) => measured)).toEqual([true, false]);
    expect(scene?.warmth[0]?.points.at(-1)).toEqual(scene?.warmth[1]?.points[0]);
  });

  test("windows and the present stand where their moments are", () => {
    const scene = waitingScene(answer(), 360, METRIC);
    const [lane] = scene?.lanes ?? [];
    expect(scene?.now).toBe(scene?.x(EIGHT + 5 * HOUR));
    expect([lane?.early, lane?.likely, lane?.late]).toEqual([20, 24, 30].map((hour) => scene?.x(EIGHT + hour * HOUR)));
  });

  test("the line of the age carries the mark of what is needed: 12 h after 24 h at half speed", () => {
    const scene = waitingScene(answer(), 360, METRIC);
    expect(ageAt(answer(), EIGHT + 24 * HOUR)).toBe(12);
    expect(ageAt(answer(), EIGHT + 24.5 * HOUR)).toBe(12.25);
    expect(scene?.lanes[0]?.needs?.[1]).toBeCloseTo(scene?.maturity.y(12) ?? 0, 9);
    expect(ageAt(answer({ method: "temperature_time" }), EIGHT + 24 * HOUR)).toBe(480);
  });

  test("everything lies inside the picture, at every width, however long the bed has been looked at since", () => {
    for (const width of [280, 360, 700, 1200]) {
      for (const last of [31, 5000]) {
        const scene = waitingScene(answer({ now: at(last) }, last), width, METRIC);
        const points = [...(scene?.warmth ?? []), ...(scene?.ages ?? [])].flatMap(({ points: own }) => own);
        expect(points.length).toBeGreaterThan(20);
        expect(points.every(([x, y]) => x >= 44 && x <= width - 10 + 1e-6 && y > 0 && y < (scene?.height ?? 0))).toBe(true);
        expect(scene?.lanes[0]?.late).toBeGreaterThan(width * 0.7);
      }
    }
  });

  test("without a moment that is one there is nothing to draw", () => {
    expect(waitingScene(answer({ curve: [] }), 360, METRIC)).toBeNull();
    expect(waitingScene(answer({ placed_at: null, celsius_now: null }), 360, METRIC)).toBeNull();
  });

  test("spells of one kind share a row, and the last of them bears the name; what lies outside is cut off", () => {
    const spell = (kind: string, from: number, to: number) => ({ kind, from: at(from), to: at(to), worst: 0, forecast: true });
    const scene = waitingScene(answer({ spells: [spell("frost", -5, 2), spell("wind", 1, 3), spell("frost", 8, 99), spell("wind", 500, 501)] as WaitingAnswer["spells"] }), 360, METRIC);
    expect(scene?.spells.map(({ of, isLast }) => [of.kind, isLast])).toEqual([["frost", false], ["wind", false], ["frost", true]]);
    expect(scene?.spells[0]?.y).toBe(scene?.spells[2]?.y);
    expect(scene?.spells[0]?.from).toBe(scene?.left);
    expect(scene?.spells[2]?.to).toBe(scene?.x(EIGHT + 30 * HOUR + 30 * 0.08 * HOUR));
  });
});

test("temperatures stand in the person's degrees", () => {
  expect([-40, 0, 38].map((celsius) => shownTemperature(celsius, { units: "imperial" }))).toEqual([-40, 32, 100.4]);
});

test("a table holds the first and the last moment and no more rows than it may", () => {
  const rows = tablePoints(answer({}, 500).curve, 40);
  expect(rows.length).toBeLessThanOrEqual(42);
  expect([rows[0]?.hours, rows.at(-1)?.hours]).toEqual([0, 500]);
});

test("evaporation is drawn with its band about it and the threshold inside the picture", () => {
  const evaporation = [0, 6, 12].map((hour, n) => ({ at: at(hour), rate: n / 10, low: 0.06 * n, high: 0.14 * n, level: "low", forecast: n > 1 }));
  const scene = evaporationScene({ evaporation } as unknown as WaitingAnswer, 360, METRIC);
  expect(scene?.panel.ticks.at(-1)).toBeGreaterThanOrEqual(1);
  expect(scene?.runs.map(({ measured }) => measured)).toEqual([true, false]);
  scene?.low.forEach(([, y], n) => expect(y).toBeGreaterThanOrEqual(scene.high[n]?.[1] ?? Infinity));
  expect(evaporationScene({ evaporation: evaporation.slice(0, 1) } as unknown as WaitingAnswer, 360, METRIC)).toBeNull();
});
