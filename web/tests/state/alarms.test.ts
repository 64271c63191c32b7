import { expect, test } from "vitest";
import { alarmKey, joinedAlarms, ringingAlarms, type Worked } from "../../src/state/alarms";
import type { Alarm, Row } from "../../src/wire";

const EIGHT = Date.parse("2026-06-01T08:00:00Z");
const minutes = (count: number) => EIGHT + count * 60_000;

function alarm(code: Alarm["code"], after: number, about: Partial<Alarm> = {}): Alarm {
  return { at: new Date(minutes(after)).toISOString(), code, batch: null, section: null, ...about };
}

function worked(batch: object = {}, times: object = {}): Worked {
  const row = { kind: "batch", id: "b", fields: { mixed_at: "2026-06-01T08:01:00Z", section: "S1", ...batch } } as unknown as Row<"batch">;
  return { batches: [row], times: new Map([["S1", { screeded_at: "2026-06-01T08:00:00Z", ...times }]]) };
}

const SOON = alarm("use_soon", 67, { batch: "b", section: "S1" });
const BY = alarm("use_by", 90, { batch: "b", section: "S1" });
const CHANNELS = alarm("channels", 30, { section: "S1" });
const ends = alarm("day_ends", 100);

function ring(alarms: readonly Alarm[], after: number, heard: readonly string[] = [], done: Worked = worked()): readonly string[] {
  return ringingAlarms({ alarms, heard }, done, minutes(after)).map(({ code }) => code);
}

test("an alarm rings from its moment on until it is heard", () => {
  expect(ring([SOON], 66.9)).toEqual([]);
  expect(ring([SOON], 67)).toEqual(["use_soon"]);
  expect(ring([SOON], 80)).toEqual(["use_soon"]);
  expect(ring([SOON], 80, [alarmKey(SOON)])).toEqual([]);
});

test("a batch past its time rings once, not also for being nearly past it; the newest comes first", () => {
  expect(ring([CHANNELS, SOON, BY], 95)).toEqual(["use_by", "channels"]);
});

test("nothing rings for a batch in place, thrown away or taken back, or for channels that are packed or open again", () => {
  const done = "2026-06-01T09:00:00Z";
  expect(ring([BY], 95, [], worked({ placed_at: done }))).toEqual([]);
  expect(ring([BY], 95, [], worked({ thrown_at: done }))).toEqual([]);
  expect(ring([BY], 95, [], worked({}, { screeded_at: done }))).toEqual([]);
  expect(ring([BY], 95, [], { batches: [], times: new Map() })).toEqual([]);
  expect(ring([CHANNELS], 95, [], worked({}, { channels_at: done }))).toEqual([]);
  expect(ring([CHANNELS], 95, [], { batches: [], times: new Map() })).toEqual([]);
});

test("an alarm of yesterday rings no more", () => {
  expect(ring([ends], 100)).toEqual(["day_ends"]);
  expect(ring([ends], 100 + 13 * 60)).toEqual([]);
});

test("what came due stays known when the engine foretells only what is still to come", () => {
  expect(joinedAlarms([SOON, BY], [BY], minutes(70))).toEqual([SOON, BY]);
  expect(joinedAlarms([SOON, BY], [], minutes(70))).toEqual([SOON]); // what was still to come and is told no more is gone
});

test("an alarm that moves is the same alarm: it does not ring twice", () => {
  const later = { ...SOON, at: new Date(minutes(75)).toISOString() };
  expect(alarmKey(later)).toBe(alarmKey(SOON));
  expect(joinedAlarms([SOON], [later], minutes(70))).toEqual([later]);
  expect(ring([later], 80, [alarmKey(SOON)])).toEqual([]);
  expect(alarmKey({ ...ends, at: "2026-06-02T17:00:00Z" })).not.toBe(alarmKey(ends));
});
