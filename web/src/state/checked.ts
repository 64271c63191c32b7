/**
 * What was measured on the finished bed and of the weather, and who let what pass, as the room document takes it. What is
 * half made or makes no sense is left out, so that one bad line never costs the whole plan.
 */
import type { Row } from "../wire";
import { isMoment, isNumber, momentOf, placeTold } from "./worked";

type Open = Readonly<Record<string, unknown>>;

export interface CheckedParts {
  readonly entries?: readonly Row<"entry">[];
  readonly gaps?: readonly Row<"gap">[];
  readonly heightLines?: readonly Row<"height_line">[];
  readonly temperatureLogs?: readonly Row<"temperature_log">[];
  /** Of the job, for all of its rooms. */
  readonly forecast?: readonly Row<"forecast_day">[];
}

/** Lists that hold nothing are left out. */
export function checkedParts({ entries = [], gaps = [], heightLines = [], temperatureLogs = [], forecast = [] }: CheckedParts): Open {
  const lists = {
    gaps: gaps.map(gapFromRow),
    height_lines: heightLines.map(lineFromRow),
    touches: inOrder(entries).map(touchFromRow),
    logs: temperatureLogs.map(logFromRow),
    forecast: lastOfEachDay(forecast).map(dayFromRow),
    ticks: inOrder(entries).map(tickFromRow),
  };
  const whole = Object.entries(lists).map(([name, list]) => [name, list.filter((one) => one !== null)] as const);
  return Object.fromEntries(whole.filter(([, list]) => list.length > 0));
}

const LARGEST_GAP = 500; // mm

function gapFromRow({ id, fields }: Row<"gap">): Open | null {
  const [from, to, at] = [placeTold(fields.from), placeTold(fields.to), placeTold(fields.at)];
  if (!from || !to || !isNumber(fields.gap) || fields.gap < 0 || fields.gap > LARGEST_GAP) return null;
  return { id, from, to, gap: fields.gap, ...(at ? { at } : {}), ...(fields.passed_over === true ? { passed_over: true } : {}), ...moment("taken_at", fields.taken_at) };
}

const NEAREST = 10; // mm from one height to the next
const FARTHEST = 5_000;

function lineFromRow({ id, fields }: Row<"height_line">): Open | null {
  const spacing = fields.spacing ?? null;
  if (!Array.isArray(fields.heights) || !fields.heights.every(isNumber)) return null;
  if (spacing !== null && !(spacing >= NEAREST && spacing <= FARTHEST)) return null;
  const [from, to] = [placeTold(fields.from), placeTold(fields.to)];
  const told = { ...(spacing === null ? {} : { spacing }), ...(from ? { from } : {}), ...(to ? { to } : {}) };
  return { id, heights: fields.heights, ...told, ...moment("taken_at", fields.taken_at) };
}

const TOUCHES = { rubbed: "rub", filled_up: "fill" } as const;

function touchFromRow({ fields }: Row<"entry">): Open | null {
  const way = TOUCHES[fields.what as keyof typeof TOUCHES] as "rub" | "fill" | undefined;
  const at = placeTold(fields.place);
  return way === undefined || !at || !isMoment(fields.at) ? null : { at, way, done_at: fields.at };
}

const COLDEST = -60; // °C
const WARMEST_LOGGED = 100;
const LONGEST_S = 1e9;

function logFromRow({ id, fields: { start, seconds, celsius, where } }: Row<"temperature_log">): Open | null {
  if (!isMoment(start) || !seconds?.length || seconds.length !== celsius?.length) return null;
  const isRising = seconds.every((second, n) => isNumber(second) && second >= 0 && second <= LONGEST_S && (n === 0 || second > (seconds[n - 1] ?? 0)));
  const isWarmth = celsius.every((one) => isNumber(one) && one >= COLDEST && one <= WARMEST_LOGGED);
  return isRising && isWarmth ? { id, start, seconds, celsius, ...(where ? { where } : {}) } : null;
}

/** A day that was told again, as by a newer forecast: the later record holds. Days are told apart by when it is warmest. */
function lastOfEachDay(days: readonly Row<"forecast_day">[]): readonly Row<"forecast_day">[] {
  const last = new Map(days.map((row) => [(row.fields.high_at ?? "").slice(0, "2026-01-01".length), row]));
  return [...last.values()].sort((a, b) => momentOf(a.fields.high_at) - momentOf(b.fields.high_at));
}

const WARMEST_AIR = 60;
const STRONGEST_WIND = 400; // km/h

function dayFromRow({ id, fields }: Row<"forecast_day">): Open | null {
  const { low, high, low_at, high_at, humidity, wind } = fields;
  if (!isMoment(low_at) || !isMoment(high_at) || momentOf(low_at) === momentOf(high_at)) return null;
  if (!isBetween(low, COLDEST, WARMEST_AIR) || !isBetween(high, COLDEST, WARMEST_AIR) || low > high) return null;
  const told = { ...(isBetween(humidity, 0, 100) ? { humidity } : {}), ...(isBetween(wind, 0, STRONGEST_WIND) ? { wind } : {}) };
  return { id, low, high, low_at, high_at, ...told };
}

const MILESTONES: readonly string[] = ["walk", "tile", "grout", "light_traffic", "heavy_traffic"];
const WAYS: readonly string[] = ["scratch", "sounding", "thumb", "foot", "moisture_test", "other"];

function tickFromRow({ fields: { what, code, at, by, how } }: Row<"entry">): Open | null {
  if (what !== "milestone" || !MILESTONES.includes(code ?? "") || !isMoment(at)) return null;
  return { milestone: code, at, ...(by ? { by } : {}), how: WAYS.includes(how ?? "") ? how : "other" };
}

function isBetween(value: unknown, low: number, high: number): value is number {
  return isNumber(value) && value >= low && value <= high;
}

function moment(name: string, at: string | null | undefined): Open {
  return isMoment(at) ? { [name]: at } : {};
}

function inOrder(entries: readonly Row<"entry">[]): readonly Row<"entry">[] {
  return [...entries].sort((a, b) => momentOf(a.fields.at) - momentOf(b.fields.at) || (a.id < b.id ? -1 : 1));
}
