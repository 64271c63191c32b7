import { expect, test } from "vitest";
import { offersOf, timesOnTop } from "../../src/storage/offers";
import type { StoredRecord } from "../../src/storage/database";

const [EARLY, NOON, LATE] = ["2026-05-04T08:00:00.000Z", "2026-05-04T12:00:00.000Z", "2026-05-04T17:00:00.000Z"] as const;

function job(fields: StoredRecord["fields"], changed_at: string, times: Record<string, string> | null = {}): StoredRecord {
  return { kind: "job", id: "j", fields, sequence: 1, changed_at, ...(times === null ? {} : { times }) };
}

function told(held: StoredRecord, theirs: StoredRecord | undefined): readonly (readonly [string, object])[] {
  return offersOf(held, held.fields, theirs).map(({ at, fields }) => [at === null ? "unknown" : new Date(at).toISOString(), fields]);
}

test("every field is offered as of when it was set, the oldest first", () => {
  const held = job({ name: "Mill", note: "gate", units: "metric" }, LATE, { name: NOON, units: EARLY });
  const theirs = job({ name: "Old mill", units: "metric" }, EARLY);
  expect(told(held, theirs)).toEqual([[NOON, { name: "Mill" }], [LATE, { note: "gate" }]]);
});

test("a value that came back to what the other holds is said again, one that stayed is not", () => {
  const held = job({ name: "Mill", note: "gate" }, LATE, { note: EARLY });
  expect(told(held, job({ name: "Mill", note: "gate" }, EARLY))).toEqual([[LATE, { name: "Mill" }]]);
  expect(told(held, held)).toEqual([]);
  expect(told(job({ name: "Mill", note: "gate" }, EARLY), held)).toEqual([]);
});

test("where times were not told, what differs is offered as of the record, and nothing is said again", () => {
  const held = job({ name: "Mill", note: "gate" }, LATE, null);
  expect(told(held, job({ name: "Mill" }, EARLY))).toEqual([[LATE, { note: "gate" }]]);
  expect(told(job({ name: "Mill" }, LATE), job({ name: "Mill" }, EARLY, null))).toEqual([]);
  const { changed_at: _none, ...undated } = held;
  expect(told(undated, job({ name: "Mill" }, EARLY))).toEqual([["unknown", { note: "gate" }]]);
});

test("a record that the other lacks is made whole, and what was set later is said again as of then", () => {
  const fields = { name: "Mill", note: "gate" };
  expect(told(job(fields, LATE, { name: EARLY }), undefined)).toEqual([[EARLY, fields], [LATE, { note: "gate" }]]);
});

test("of a reading, which is final, only what may change is ever said again", () => {
  const fields = { room_id: "r", at: [0, 0], down: 950, deleted: true };
  const held: StoredRecord = { kind: "reading", id: "x", fields, sequence: 1, changed_at: LATE, times: { room_id: EARLY, at: EARLY, down: NOON } };
  expect(told(held, undefined)).toEqual([[EARLY, fields], [LATE, { deleted: true }]]);
  expect(told(held, { ...held, changed_at: EARLY, times: {} })).toEqual([[LATE, { deleted: true }]]);
});

test("changes on top date what of them stands, by the latest, and leave the rest as it was", () => {
  const at = Date.parse(NOON);
  const under = job({ name: "Old mill", note: "gate" }, EARLY);
  const changes = [{ fields: { name: "Mill" }, at }, { fields: { note: "back door" }, at: at + 1 }];
  expect(timesOnTop(under, { name: "Mill", note: "gate" }, changes)).toEqual({ name: NOON, note: EARLY });
  expect(timesOnTop(job({ name: "Mill" }, LATE), { name: "Mill" }, changes)).toEqual({ name: LATE });
  expect(timesOnTop(undefined, { name: "Mill" }, changes)).toEqual({ name: NOON });
  expect(timesOnTop(job({ name: "Mill" }, EARLY, null), { name: "Mill" }, changes)).toBeNull();
});
