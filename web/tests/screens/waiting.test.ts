import { afterEach, describe, expect, test } from "vitest";
import {
  doubtOf, leftUntil, milestonesAt, nextOf, shareOf, ticksFrom, timeLineOf, type Countdown,
} from "../../src/screens/waiting/standing";
import { AT_FIRST, cellAfter, daysFrom, faultOf, momentOn, recordsFrom } from "../../src/screens/waiting/forecast";
import { logFileFrom } from "../../src/screens/waiting/LogSheet";
import { RANGES, rangeFault, temperatureFault } from "../../src/screens/waiting/ranges";
import { isTooLate } from "../../src/screens/waiting/TileChoice";
import { fastestAhead } from "../../src/screens/waiting/Evaporation";
import { spellAdvice } from "../../src/screens/waiting/Weather";
import type { Row } from "../../src/state";
import type { Fields, WaitingAnswer } from "../../src/wire";

const EIGHT = Date.parse("2026-06-01T08:00:00Z");
const at = (hours: number) => new Date(EIGHT + hours * 3_600_000).toISOString();

function countdown(milestone: Countdown["milestone"], early: number, likely: number, late: number): Countdown {
  return { milestone, early: at(early), likely: at(likely), late: at(late), hours_left: likely, share: 0, ticked: null, state: "waiting" };
}

function entry(id: string, fields: Fields<"entry">): Row<"entry"> {
  return { kind: "entry", id, fields, sequence: null, waiting: false, conflicts: [] } as unknown as Row<"entry">;
}

const WALK = countdown("walk", 9, 12, 17);
const TILE = countdown("tile", 16, 20, 28);
const NONE: ReadonlyMap<string, Row<"entry">> = new Map();

describe("how a milestone stands", () => {
  test("the clock moves it from waiting by early to may be ready, and by late to should be ready", () => {
    const states = [8.9, 9, 16.9, 17].map((hour) => milestonesAt([WALK], NONE, EIGHT + hour * 3_600_000)[0]?.state);
    expect(states).toEqual(["waiting", "may_be_ready", "may_be_ready", "should_be_ready"]);
  });

  test("no moment however late ticks it: only somebody's look does", () => {
    expect(milestonesAt([WALK], NONE, EIGHT + 10_000 * 3_600_000)[0]).toMatchObject({ state: "should_be_ready", tick: null });
    const ticks = ticksFrom([entry("1", { what: "milestone", code: "walk", at: at(1), by: "Ben" })]);
    expect(milestonesAt([WALK, TILE], ticks, EIGHT).map(({ state }) => state)).toEqual(["ticked", "waiting"]);
  });

  test("of several looks the last counts, whichever was noted first; other lines of the day book are none", () => {
    const ticks = ticksFrom([
      entry("2", { what: "milestone", code: "walk", at: at(5), by: "Ben" }),
      entry("3", { what: "milestone", code: "walk", at: at(3), by: "Ana" }),
      entry("4", { what: "note", code: "tile", at: at(9) }),
    ]);
    expect(ticks.get("walk")?.fields.by).toBe("Ben");
    expect(ticks.has("tile")).toBe(false);
  });

  test("next is the first that nobody ticked, and none once all are", () => {
    const one = ticksFrom([entry("1", { what: "milestone", code: "walk", at: at(1) })]);
    expect(nextOf(milestonesAt([WALK, TILE], one, EIGHT))?.milestone).toBe("tile");
    const both = new Map([...one, ["tile", entry("2", { what: "milestone", code: "tile", at: at(2) })] as const]);
    expect(nextOf(milestonesAt([WALK, TILE], both, EIGHT))).toBeNull();
  });

  test("a look before the window is asked about, one in it is not", () => {
    expect(doubtOf(WALK, EIGHT + 8 * 3_600_000)).toBe("early");
    expect(doubtOf(WALK, EIGHT + 9 * 3_600_000)).toBeNull();
    expect(doubtOf({ state: "not_placed", early: null }, EIGHT)).toBe("not_placed");
    expect(doubtOf({ state: "never", early: null }, EIGHT)).toBe("never");
  });
});

describe("what is left", () => {
  const left = (minutes: number) => leftUntil(EIGHT + minutes * 60_000, EIGHT).parts.map(({ figure, unit }) => `${figure} ${unit}`).join(" ");
  test("is told in minutes, then hours and minutes, then days and hours", () => {
    expect([left(0), left(59), left(60), left(61.9), left(2879), left(2880), left(6 * 1440 + 90), left(206 * 1440 + 800)]).toEqual([
      "0 minutes", "59 minutes", "1 hours 0 minutes", "1 hours 1 minutes", "47 hours 59 minutes", "2 days 0 hours", "6 days 1 hours", "206 days",
    ]);
  });

  test("is told as past once it is", () => {
    expect(leftUntil(EIGHT, EIGHT + 1)).toMatchObject({ isPast: true });
    expect(leftUntil(EIGHT, EIGHT)).toMatchObject({ isPast: false });
  });
});

test("the line of time runs from placing to somewhat beyond the window, and holds every moment at its ends", () => {
  const line = timeLineOf(at(0), TILE);
  expect(line?.from).toBe(EIGHT);
  expect(line?.to).toBeGreaterThan(EIGHT + 28 * 3_600_000);
  if (line) expect([shareOf(line, EIGHT - 1), shareOf(line, (line.from + line.to) / 2), shareOf(line, line.to + 1)]).toEqual([0, 0.5, 1]);
  expect(timeLineOf(null, TILE)).toBeNull();
  expect(timeLineOf(at(0), { likely: null, late: null })).toBeNull();
});

describe("a forecast as it is typed", () => {
  const OWN_ZONE = process.env["TZ"];
  afterEach(() => { if (OWN_ZONE === undefined) delete process.env["TZ"]; else process.env["TZ"] = OWN_ZONE; });

  test("becomes records in °C and km/h, at the times told, named after the day as people here call it", () => {
    process.env["TZ"] = "Pacific/Honolulu";
    const [record] = recordsFrom({ ...AT_FIRST, days: { "2026-12-01": { low: 50, high: 86, humidity: 40, wind: 10 } } }, { units: "imperial" });
    expect(record).toMatchObject({ low: 10, high: 30, humidity: 40, low_at: "2026-12-01T06:00:00-10:00", high_at: "2026-12-01T15:00:00-10:00" });
    expect(record?.wind).toBeCloseTo(16.09344, 9);
  });

  test("has the offset in force on that day", () => {
    process.env["TZ"] = "America/Chicago";
    expect(momentOn("2026-03-07", "15:00")).toBe("2026-03-07T15:00:00-06:00");
    expect(momentOn("2026-03-08", "15:00")).toBe("2026-03-08T15:00:00-05:00");
    process.env["TZ"] = "Asia/Kolkata";
    expect(momentOn("2026-03-08", "06:00")).toBe("2026-03-08T06:00:00+05:30");
  });

  test("is kept only where a day is whole and can be", () => {
    const faults = [{}, { low: 40 }, { low: 60, high: 50 }, { low: 40, high: 900 }, { low: 40, high: 50, humidity: 101 }, { low: 50, high: 50 }];
    expect(faults.map((typed) => faultOf(typed, { units: "imperial" }))).toEqual([null, "half", "swapped", "beyond", "beyond", null]);
    expect(recordsFrom({ ...AT_FIRST, days: { "2026-12-01": { low: 60, high: 50 }, "2026-12-02": { low: 40, high: 50 } } }, { units: "imperial" })).toHaveLength(1);
  });

  test("goes from cell to cell and ends after the last", () => {
    const days = daysFrom(Date.parse("2026-12-01T12:00:00Z"));
    expect(days).toHaveLength(7);
    const [first = "", second = ""] = days;
    expect(cellAfter(days, [first, "low"], false)).toEqual([first, "high"]);
    expect(cellAfter(days, [first, "high"], false)).toEqual([second, "low"]);
    expect(cellAfter(days, [first, "high"], true)).toEqual([first, "humidity"]);
    expect(cellAfter(days, [days[6] ?? "", "high"], false)).toBeNull();
  });
});

test("the fastest drying is the fastest of what is still to come", () => {
  const rate = (hour: number, value: number) => ({ at: at(hour), rate: value }) as WaitingAnswer["evaporation"][number];
  const rates = [rate(0, 9), rate(2, 1), rate(3, 4), rate(4, 2)];
  expect(fastestAhead(rates, EIGHT + 3_600_000)?.rate).toBe(4);
  expect(fastestAhead(rates, EIGHT + 5 * 3_600_000)).toBeNull();
});

describe("a logger's file", () => {
  test("is read in two octets a sign where it says so, and in one where it must be", async () => {
    const text = "Time\tTemp (°C)\r\n2026-05-14 08:00\t18.5\r\n";
    const narrow = Uint8Array.from(text, (sign) => sign.charCodeAt(0));
    const wide = new Uint8Array(new Uint16Array([0xfeff, ...narrow]).buffer);
    for (const octets of [wide, narrow]) {
      expect(await logFileFrom(new File([octets], "log.csv"))).toEqual({ name: "log.csv", text });
    }
  });
});

test("tile on the fresh bed can be chosen until the bed placed last is too old, and while nothing is placed", () => {
  expect([2, 4, 4.1].map((hours) => isTooLate({ last_until: at(4) }, EIGHT + hours * 3_600_000))).toEqual([false, false, true]);
  expect(isTooLate({ last_until: null }, EIGHT)).toBe(false);
});

test("what lies outside its range is told with both ends, in the degrees that the person reads", () => {
  expect([0, 20, 20.1].map((hours) => rangeFault(hours, [0, 20], String) === null)).toEqual([true, true, false]);
  expect([213, 212, -76, -77].map((typed) => temperatureFault(RANGES.bed)(typed) === null)).toEqual([false, true, true, false]); // °F
  expect(temperatureFault(RANGES.bed)(999)).toMatch(/−76\u202f°F.*212\u202f°F/);
});

test("nobody is told not to place a bed that lies placed", () => {
  expect(spellAdvice("frost", false)).toContain("or do not place it");
  expect(spellAdvice("frost", true)).toContain("until it is hard");
  expect(spellAdvice("frost", true)).not.toContain("place");
  expect(spellAdvice("wind", true)).toBe(spellAdvice("wind", false));
});
