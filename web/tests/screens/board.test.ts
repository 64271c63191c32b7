import { expect, test } from "vitest";
import { barsIn, shareAt, weekFrom } from "../../src/screens/board/week";
import type { Milestone } from "../../src/screens/waiting/standing";

const NOON = new Date(2026, 4, 4, 12).getTime();
const DAY_MS = 86_400_000;

function waiting(early: number, likely: number, late: number | null): Milestone {
  const at = (days: number) => new Date(new Date(2026, 4, 4).getTime() + days * DAY_MS).toISOString();
  return { milestone: "tile", early: at(early), likely: at(likely), late: late === null ? null : at(late), hours_left: 0, share: 0, ticked: null, state: "waiting", tick: null };
}

test("a week is seven days from this midnight on, however long each of them is", () => {
  for (let month = 0; month < 12; month += 1) for (let day = 1; day <= 28; day += 1) {
    const week = weekFrom(new Date(2026, month, day, 23, 30).getTime());
    expect(week).toHaveLength(8);
    expect(week.map((at) => new Date(at).getHours())).toEqual(Array.from({ length: 8 }, () => 0));
    expect(new Date(week[0] ?? 0).getDate()).toBe(day);
    for (const [index, at] of week.slice(0, -1).entries()) {
      expect(shareAt(week, at)).toBeCloseTo(index / 7, 12);
      expect(shareAt(week, (at + (week[index + 1] ?? 0)) / 2)).toBeCloseTo((index + 0.5) / 7, 12);
    }
  }
});

test("a window lies where its days are, cut at the ends of the week", () => {
  const week = weekFrom(NOON);
  expect(barsIn(week, [waiting(1, 1.5, 3)])).toEqual([{ milestone: "tile", from: 1 / 7, likely: 1.5 / 7, to: 3 / 7 }]);
  expect(barsIn(week, [waiting(-2, -1, 1)])).toEqual([{ milestone: "tile", from: 0, likely: 0, to: 1 / 7 }]);
  expect(barsIn(week, [waiting(6, 8, 9)])).toEqual([{ milestone: "tile", from: 6 / 7, likely: 1, to: 1 }]);
});

test("what is over, what comes later and what somebody let pass has no bar", () => {
  const week = weekFrom(NOON);
  const passed = { ...waiting(1, 2, 3), tick: { kind: "entry", id: "e", fields: {}, sequence: 0, waiting: 0, conflicts: {} } } as const;
  expect(barsIn(week, [waiting(-3, -2, -1), waiting(7, 8, 9), passed, { ...waiting(1, 2, 3), likely: null }])).toEqual([]);
});
