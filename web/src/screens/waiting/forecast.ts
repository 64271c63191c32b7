/** A forecast as it is typed: a row a day, figures in the person's units; and the records it becomes. */
import type { NewForecastDay, Row } from "../../state";
import { celsiusFrom, kmHFrom, type Reader } from "../../units";

export const DAYS_AHEAD = 7;
export const COLUMNS = ["low", "high", "humidity", "wind"] as const;
export type Column = (typeof COLUMNS)[number];
export type Fault = "swapped" | "half" | "beyond" | "same_time";

/** What was typed for a day, as it reads on the keys; empty where nothing was. */
export type DayTyped = Readonly<Partial<Record<Column, number>>>;

export interface ForecastTyped {
  readonly days: Readonly<Record<string, DayTyped>>;
  readonly lowAt: string;
  readonly highAt: string;
  readonly isMore: boolean;
  readonly cell: readonly [day: string, column: Column] | null;
}

export const AT_FIRST: ForecastTyped = { days: {}, lowAt: "06:00", highAt: "15:00", isMore: false, cell: null };

const LIMITS: Readonly<Record<Column, readonly [number, number]>> = { low: [-60, 60], high: [-60, 60], humidity: [0, 100], wind: [0, 400] };

function two(value: number): string {
  return `${value}`.padStart(2, "0");
}

/** `2026-11-30` in this phone's own calendar. */
export function dayOf(ms: number): string {
  const day = new Date(ms);
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** Today and the days after it. */
export function daysFrom(now: number): readonly string[] {
  const day = new Date(now);
  return Array.from({ length: DAYS_AHEAD }, (_, index) => dayOf(new Date(day.getFullYear(), day.getMonth(), day.getDate() + index).getTime()));
}

/** That clock time on that day, with the offset in force there: its first ten letters name the day as people here call it. */
export function momentOn(day: string, time: string): string {
  const at = new Date(`${day}T${time}:00`);
  const offset = -at.getTimezoneOffset();
  const size = Math.abs(offset);
  return `${dayOf(at.getTime())}T${two(at.getHours())}:${two(at.getMinutes())}:00${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

type Units = Pick<Reader, "units">;

function stored(column: Column, value: number, units: Units): number {
  if (column === "humidity") return value;
  return column === "wind" ? kmHFrom(value, units) : celsiusFrom(value, units.units);
}

/** What is wrong with a day; null for a good one, and for one that nobody typed. */
export function faultOf(typed: DayTyped, units: Units): Fault | null {
  const { low, high, humidity, wind } = typed;
  if (low === undefined && high === undefined && humidity === undefined && wind === undefined) return null;
  const given = COLUMNS.flatMap((column) => { const value = typed[column]; return value === undefined ? [] : [[column, stored(column, value, units)] as const]; });
  if (given.some(([column, value]) => value < LIMITS[column][0] || value > LIMITS[column][1])) return "beyond";
  if (low === undefined || high === undefined) return "half";
  return low > high ? "swapped" : null;
}

/** The days that are whole and right, as records. */
export function recordsFrom({ days, lowAt, highAt }: ForecastTyped, units: Units): readonly NewForecastDay[] {
  return Object.entries(days).sort().flatMap(([day, typed]) => {
    const { low, high, humidity, wind } = typed;
    if (low === undefined || high === undefined || faultOf(typed, units) !== null) return [];
    const told = { ...(humidity === undefined ? {} : { humidity }), ...(wind === undefined ? {} : { wind: stored("wind", wind, units) }) };
    return [{ low: stored("low", low, units), high: stored("high", high, units), low_at: momentOn(day, lowAt), high_at: momentOn(day, highAt), ...told }];
  });
}

/** The cell that the keys go on to: along the day, then the next day's first; null after the last. */
export function cellAfter(days: readonly string[], [day, column]: readonly [string, Column], isMore: boolean): readonly [string, Column] | null {
  const columns = isMore ? COLUMNS : COLUMNS.slice(0, 2);
  const next = columns[columns.indexOf(column) + 1];
  if (next !== undefined) return [day, next];
  const after = days[days.indexOf(day) + 1];
  return after === undefined ? null : [after, "low"];
}

/** The days told last, oldest first: a day that was told again holds as it was told later. */
export function daysTold(rows: readonly Row<"forecast_day">[]): readonly Row<"forecast_day">[] {
  const last = new Map(rows.map((row) => [(row.fields.high_at ?? "").slice(0, "2026-01-01".length), row]));
  return [...last.values()].sort((a, b) => Date.parse(a.fields.high_at ?? "") - Date.parse(b.fields.high_at ?? ""));
}
