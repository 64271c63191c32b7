import { expect, test } from "vitest";
import { momentNear, timeOfDay } from "../../src/screens/common/clockTime";
import { actsOf, batchState, freshBatches, sectionInHand, sectionsNow, type SectionState } from "../../src/screens/common/filled";
import { HABIT_CODES, habitsAt, habitsOpen, type HabitFacts } from "../../src/screens/common/habitCodes";
import { countdownOf } from "../../src/screens/filling/countdownOf";
import type { Row, SectionTimes } from "../../src/state";
import type { Fields, FillClock, Plan, Section } from "../../src/wire";
import { en } from "../../src/words/en";

const EIGHT = Date.parse("2026-06-01T08:00:00Z");
const at = (minutes: number) => new Date(EIGHT + minutes * 60_000).toISOString();

function row<K extends "batch" | "entry">(kind: K, id: string, fields: Fields<K>): Row<K> {
  return { kind, id, fields, sequence: null, waiting: false, conflicts: [] } as unknown as Row<K>;
}

function section(order: number, batches = 1, channels = 1): Section {
  const low = (order - 1) * 1000;
  const polygon = [[low, 0], [low + 1000, 0], [low + 1000, 1000], [low, 1000]] as const;
  const groove = { rail: "A", from: [low, 0], to: [low + 1000, 0], length: 1000, volume: 0.001 } as const;
  return { id: `S${order}`, polygon, at: [low + 500, 500], volume: 0.1, mixed_volume: 0.1, batches, order, walk: 0, channels: Array.from({ length: channels }, () => groove), channel_volume: 0.001 };
}

const THREE = { sections: [section(1, 1.5), section(2), section(3, 1, 0)] };

function states(times: Record<string, SectionTimes>, batches: readonly Row<"batch">[] = []): readonly SectionState[] {
  return sectionsNow(THREE, new Map(Object.entries(times)), batches, null).map(({ state }) => state);
}

test("a section is told by its latest moment; without channels it is packed once it is cut off", () => {
  expect(states({})).toEqual(["waiting", "waiting", "waiting"]);
  expect(states({ S2: { placed_at: at(1) } }, [row("batch", "b", { section: "S1", mixed_at: at(0) })])).toEqual(["filling", "placed", "waiting"]);
  expect(states({ S1: { screeded_at: at(1) }, S2: { screeded_at: at(1), channels_at: at(2) }, S3: { screeded_at: at(3) } })).toEqual(["screeded", "packed", "packed"]);
});

test("what was thrown away counts neither as mixed nor as waiting", () => {
  const batches = [row("batch", "b", { section: "S1", mixed_at: at(0), thrown_at: at(5) })];
  expect(states({}, batches)).toEqual(["waiting", "waiting", "waiting"]);
  expect(freshBatches(batches, new Map(), null, 1.5)).toEqual([]);
});

test("a batch lasts its working time until the engine has told another, and turns soon, then late", () => {
  const rows = [row("batch", "young", { mixed_at: at(30) }), row("batch", "old", { mixed_at: at(0) })];
  const [old, young] = freshBatches(rows, new Map(), null, 1.5);
  expect([old?.id, young?.id]).toEqual(["old", "young"]);
  const told = old && [66, 68, 90].map((minutes) => batchState(old, Date.parse(at(minutes))));
  expect(told).toEqual(["fresh", "soon", "late"]);
  const clock = { batches: [{ id: "old", section: null, state: "fresh", use_by: at(60), is_in_time: false }], sections: [] } as unknown as FillClock;
  const [sooner] = freshBatches(rows, new Map(), clock, 1.5);
  expect([sooner?.useBy, sooner?.isInTime]).toEqual([Date.parse(at(60)), false]);
});

function acts(times: Record<string, SectionTimes>, batches: readonly Row<"batch">[] = []) {
  const told = new Map(Object.entries(times));
  const { mix, place, cutOff, pack } = actsOf(sectionsNow(THREE, told, batches, null), freshBatches(batches, told, null, 1.5), null);
  return { mix: mix?.section.id, place: place && [place.batch.id, place.into?.section.id, place.isLast], cutOff: cutOff?.section.id, pack: pack?.section.id };
}

test("a tap mixes for the section in hand until it has enough, then for the next", () => {
  expect(acts({}).mix).toBe("S1");
  const one = row("batch", "a", { section: "S1", mixed_at: at(0) });
  expect(acts({}, [one]).mix).toBe("S1");
  expect(acts({}, [one, row("batch", "b", { section: "S1", mixed_at: at(5) })]).mix).toBe("S2");
});

test("a tap places the oldest batch, and knows the last that its section takes", () => {
  const [one, two] = [row("batch", "a", { section: "S1", mixed_at: at(0) }), row("batch", "b", { section: "S1", mixed_at: at(5) })];
  expect(acts({}, [two, one]).place).toEqual(["a", "S1", false]);
  expect(acts({}, [row("batch", "a", { ...one.fields, placed_at: at(9) }), two]).place).toEqual(["b", "S1", true]);
});

test("a section in place has all that was mixed for it before; a batch that names none goes into the section in hand", () => {
  const cut = { S1: { screeded_at: at(9) } };
  const used = row("batch", "b", { section: "S1", mixed_at: at(0) });
  expect(acts(cut, [used])).toEqual({ mix: "S2", place: null, cutOff: "S2", pack: "S1" });
  expect(acts(cut, [row("batch", "b", { mixed_at: at(0) })]).place).toEqual(["b", "S2", true]);
  expect(acts(cut, [row("batch", "b", { section: "S1", mixed_at: at(10) })]).place).toEqual(["b", "S2", true]);
});

test("with all cut off and packed no tap has anything to act on", () => {
  const done = { screeded_at: at(1), channels_at: at(2) };
  expect(acts({ S1: done, S2: done, S3: done })).toEqual({ mix: undefined, place: null, cutOff: undefined, pack: undefined });
});

test("where nothing is begun the section in hand is the one that the engine says is next", () => {
  const clock = { next_section: "S2", sections: [], batches: [] } as unknown as FillClock;
  expect(sectionInHand(sectionsNow(THREE, new Map(), [], clock), clock)?.section.id).toBe("S2");
});

function facts(changed: Partial<HabitFacts> = {}): HabitFacts {
  const rails = [{ id: "A", settings: [1, 2] }];
  return { room: {}, plan: { rails } as unknown as Plan, stationsSet: 0, hasMixed: false, sections: sectionsNow(THREE, new Map(), [], null), ...changed };
}
const codes = (moment: "before_rails" | "filling", given: HabitFacts) => habitsAt(moment, given).map(({ code }) => code);

test("strips are soaked before the first station and covered after it, only where they are of wood, and never once mortar is mixed", () => {
  expect(codes("before_rails", facts())).toEqual(["soak_strips"]);
  expect(codes("before_rails", facts({ stationsSet: 1 }))).toEqual(["cover_strips"]);
  expect(codes("before_rails", facts({ room: { "rails.wood": false } }))).toEqual([]);
  expect(codes("before_rails", facts({ hasMixed: true }))).toEqual([]);
});

test("drains are plugged before the first batch, only where there are any", () => {
  expect(codes("filling", facts())).toEqual(["perimeter_free"]);
  const room = { fixtures: [{ id: "d", kind: "drain", at: [500, 500] }] } as const;
  expect(codes("filling", facts({ room }))).toEqual(["plug_drains", "perimeter_free"]);
});

test("a fixture is kept clear while its own section is filled", () => {
  const room = { fixtures: [{ id: "p", kind: "post", at: [500, 500] }] } as const;
  const filling = (id: string) => sectionsNow(THREE, new Map(), [row("batch", "b", { section: id, mixed_at: at(0) })], null);
  expect(codes("filling", facts({ room, hasMixed: true, sections: filling("S1") }))).toEqual(["fixtures_clear", "cement_skin"]);
  expect(codes("filling", facts({ room, hasMixed: true, sections: filling("S3") }))).toEqual(["cement_skin"]);
});

test("after a cut the groove comes first, then the channels; where strips are not moved there is no groove to clean", () => {
  const sections = sectionsNow(THREE, new Map([["S1", { screeded_at: at(1) }]]), [], null);
  expect(codes("filling", facts({ hasMixed: true, sections })).slice(0, 2)).toEqual(["clean_groove", "channels_at_once"]);
  const plan = { rails: [{ id: "A", settings: [1] }] } as unknown as Plan;
  expect(codes("filling", facts({ hasMixed: true, sections, plan }))[0]).toBe("channels_at_once");
});

test("a tick counts for its section, silence for the room", () => {
  const habits = [{ code: "channels_at_once", section: "S2" }, { code: "cement_skin", section: null }] as const;
  const ticked = row("entry", "e", { what: "habit", code: "channels_at_once", section: "S1" });
  expect(habitsOpen(habits, [ticked])).toHaveLength(2);
  expect(habitsOpen(habits, [row("entry", "e", { ...ticked.fields, section: "S2" })])).toEqual([habits[1]]);
  expect(habitsOpen(habits, [row("entry", "e", { what: "habit_off", code: "channels_at_once" })])).toEqual([habits[1]]);
});

test("every habit has its sentence", () => {
  for (const code of HABIT_CODES) expect(Object.keys(en), code).toContain(`habit.${code}`);
});

test("time left and time over are whole minutes and two figures of seconds", () => {
  expect(countdownOf(89 * 60_000 + 59_400)).toEqual({ minutes: 89, seconds: "59" });
  expect(countdownOf(500)).toEqual({ minutes: 0, seconds: "00" });
  expect(countdownOf(-305_000)).toEqual({ minutes: 5, seconds: "05" });
});

test("a time of day is the nearest one with that hour and minute; what is none is not taken", () => {
  const evening = new Date(2026, 5, 1, 22, 30).getTime();
  expect(momentNear("01:15", evening)).toBe(new Date(2026, 5, 2, 1, 15).getTime());
  expect(momentNear("17:00", evening)).toBe(new Date(2026, 5, 1, 17, 0).getTime());
  expect(timeOfDay(evening)).toBe("22:30");
  for (const none of ["", "25:00", "7", "12:71"]) expect(momentNear(none, evening), none).toBeNull();
});
