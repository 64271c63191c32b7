/**
 * What was done on the floor, as the room document takes it. Records come from several phones, each field by itself: what
 * is half made or makes no sense is left out, so that one bad line never costs the whole plan.
 */
import type { Fields, RailLine, Row, StripsOnHand } from "../wire";
import { isSamePlace, type Place } from "./places";

type Open = Readonly<Record<string, unknown>>;
type Moment = string | null | undefined;

export interface WorkedParts {
  readonly placements: readonly Row<"placement">[];
  readonly batches?: readonly Row<"batch">[];
  readonly railChecks?: readonly Row<"rail_check">[];
  readonly entries?: readonly Row<"entry">[];
}

/** Lists that hold nothing are left out, but for the placements. */
export function workedParts({ placements, batches = [], railChecks = [], entries = [] }: WorkedParts): Open {
  const lists = {
    checks: inOrder(railChecks, ({ fields }) => fields.taken_at).map(checkFromRow),
    truings: inOrder(entries, ({ fields }) => fields.at).map(truingFromRow),
    batches: inOrder(batches, ({ fields }) => fields.mixed_at).map(batchFromRow),
    stoppages: inOrder(entries, ({ fields }) => fields.at).map(stoppageFromRow),
  };
  const whole = Object.entries(lists).map(([name, list]) => [name, list.filter((one) => one !== null)] as const);
  return { placements: placementsFromRows(placements), ...Object.fromEntries(whole.filter(([, list]) => list.length > 0)) };
}

export const SECTION_MOMENTS = ["mixed_at", "placed_at", "screeded_at", "channels_at"] as const;
export type SectionMoment = (typeof SECTION_MOMENTS)[number];
/** How far the filling of a section is: the moments that were told. */
export type SectionTimes = Readonly<Partial<Record<SectionMoment, string>>>;

/** What was told of one section: its place where that is known, else its id tells which one is meant. */
export interface Placed {
  readonly section: string;
  readonly at: Place | null;
  readonly times: SectionTimes;
}

/**
 * One a section, also where two phones began it without knowing of each other: of each moment the one that was told in
 * the newer record holds. In order of their making.
 */
export function placedFromRows(placements: readonly Row<"placement">[]): readonly Placed[] {
  const placed: Placed[] = [];
  for (const { fields } of placements) {
    const one = { section: fields.section ?? "", at: placeTold(fields.at) };
    const known = placed.findIndex((other) => isOfOne(one, other));
    const times = { ...placed[known]?.times, ...momentsIn(fields, SECTION_MOMENTS) };
    if (known < 0) placed.push({ ...one, times });
    else placed[known] = { ...one, times };
  }
  return placed;
}

/** Whether two entries are of one section as it was when they were made. */
export function isOfOne(one: Omit<Placed, "times">, other: Omit<Placed, "times">): boolean {
  return one.at === null || other.at === null ? one.at === other.at && one.section === other.section : isSamePlace(one.at, other.at);
}

function placementsFromRows(placements: readonly Row<"placement">[]): readonly Open[] {
  return placedFromRows(placements).map(({ section, at, times }) => ({ ...(section === "" ? {} : { section }), ...given({ at }), ...times }));
}

function checkFromRow({ id, fields }: Row<"rail_check">): Open | null {
  const { rail, rail_to: other, from, to, off, length, reversed_off: turned } = fields;
  if (!rail || !isNumber(off) || ![from, to, length].every(isLengthOrNone)) return null;
  const where = other && other !== rail ? { rails: [rail, other] } : { rail };
  const told = { from, to, off, length, reversed_off: isNumber(turned) ? turned : null, level: fields.level };
  return { id, ...where, ...given(told), ...momentsIn(fields, ["taken_at"]) };
}

function truingFromRow({ fields }: Row<"entry">): Open | null {
  const { what, rail, at, from_raise: from, to_raise: to, lie } = fields;
  if (what !== "trued" || !rail || !isMoment(at)) return null;
  const whichLie = Number.isInteger(lie) && Number(lie) >= 1 ? { lie } : {};
  return { rail, ...whichLie, from_raise: isNumber(from) ? from : 0, to_raise: isNumber(to) ? to : 0, at };
}

const FARTHEST = 1_000_000; // mm from the corner that places count from
const LEAST_BATCH = 0.01;
const LARGEST_BATCH = 10;

function batchFromRow({ id, fields }: Row<"batch">): Open | null {
  const { mixed_at: at, section, at: place } = fields;
  const size = fields.size ?? 1;
  if (!isMoment(at) || !(size >= LEAST_BATCH && size <= LARGEST_BATCH)) return null;
  return { id, ...given({ section, at: placeTold(place) }), mixed_at: at, ...momentsIn(fields, ["placed_at", "thrown_at"]), size };
}

function stoppageFromRow({ fields: { what, at, until } }: Row<"entry">): Open | null {
  if (what !== "stopped" || !isMoment(at)) return null;
  if (!until) return { start: at };
  return isMoment(until) && Date.parse(until) >= Date.parse(at) ? { start: at, end: until } : null;
}

/** The rails' choices whose parts may be half made. A list that was told stays a list: no rails is not the proposed ones. */
export function wholeRails(room: Fields<"room">): Fields<"room"> {
  const { "rails.lines": lines, "rails.strips": strips, "filling.day_ends": ends } = room;
  return {
    ...room,
    ...(lines ? { "rails.lines": lines.filter(isWholeLine) } : {}),
    ...(strips ? { "rails.strips": strips.filter(isWholeStrip) } : {}),
    ...(isMoment(ends) ? {} : { "filling.day_ends": null }),
  };
}

function isWholeLine({ from, to }: Partial<RailLine>): boolean {
  return isPlace(from) && isPlace(to);
}

function isWholeStrip({ thickness, length }: Partial<StripsOnHand>): boolean {
  return isNumber(thickness) && isNumber(length);
}

/** A place as the engine takes it, within a kilometre; null for none. */
export function placeTold(place: unknown): Place | null {
  return isPlace(place) && place.every((value) => Math.abs(value) <= FARTHEST) ? place : null;
}

function isPlace(place: unknown): place is Place {
  return Array.isArray(place) && place.length === 2 && place.every(isNumber);
}

export function isNumber(value: unknown): value is number {
  return typeof value === "number" && Number.isFinite(value);
}

function isLengthOrNone(value: unknown): boolean {
  return value === null || value === undefined || (isNumber(value) && value >= 0);
}

const MOMENT = /^(\d{4})-(\d\d)-(\d\d)T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/** Whether the engine takes it: ISO 8601 with its offset from UTC, on a day that there is. */
export function isMoment(text: unknown): text is string {
  const [, year, month, day] = (MOMENT.exec(typeof text === "string" ? text : "") ?? []).map(Number);
  if (!year || !month || !day) return false;
  return new Date(Date.UTC(year, month - 1, day)).getUTCDate() === day && month <= 12;
}

/** In ms; 0 for none that the engine takes. */
export function momentOf(at: Moment): number {
  return isMoment(at) ? Date.parse(at) : 0;
}

function momentsIn<K extends string>(fields: object, names: readonly K[]): Readonly<Partial<Record<K, string>>> {
  const told = names.map((name) => [name, (fields as Open)[name]] as const).filter(([, at]) => isMoment(at));
  return Object.fromEntries(told) as Partial<Record<K, string>>;
}

function given(fields: Open): Open {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null && value !== undefined));
}

/** By their moments, the oldest first; those without one stand before. Of one moment, in order of their making. */
function inOrder<R extends Row>(rows: readonly R[], told: (row: R) => Moment): readonly R[] {
  const at = (row: R) => momentOf(told(row));
  return [...rows].sort((a, b) => at(a) - at(b) || (a.id < b.id ? -1 : 1));
}
