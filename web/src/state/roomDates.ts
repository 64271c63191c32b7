/**
 * The dates of a room for calendar programs, of the engine's answer to `waiting`, as the service makes them for its feed:
 * a date's uid is the room's id with the milestone, so that it stays the same whatever the weather does.
 */
import type { CalendarDate, Countdown, WaitingAnswer } from "../wire";

/** How a room is found: its job, its own name, the job's address. */
export interface RoomNames {
  readonly job: string;
  readonly room: string;
  readonly place: string;
}

type Values = Readonly<Record<string, string>>;
export type DateWord =
  | `dates.likely.${Countdown["milestone"]}` | `dates.passed.${Countdown["milestone"]}` | `dates.looked.${NonNullable<Countdown["ticked"]>["how"]}`
  | "dates.window" | "dates.window_open" | "dates.on_measured" | "dates.on_both" | "dates.on_foretold" | "dates.no_test" | "dates.passed_at"
  | "dates.somebody" | "dates.zone";

/** In whose words, and by which clock. */
export interface Telling {
  readonly say: (word: DateWord, values?: Values) => string;
  /** IANA name. */
  readonly zone: string;
}

/** When the dates are made, and a number that grows with every newer making. */
export interface Made {
  readonly sequence: number;
  readonly changedAt: string;
}

const LONGEST_NAME = 150;
const LONGEST_PLACE = 500;

/** The dates as the engine's question `calendar` takes them: windows from early to late, and what somebody let pass. */
export function datesOfRoom(roomId: string, names: RoomNames, waiting: WaitingAnswer, telling: Telling, made: Made): readonly CalendarDate[] {
  const measured = waiting.curve.filter((point) => point.measured).map((point) => Date.parse(point.at));
  const until = measured.length > 0 ? Math.max(...measured) : null;
  return waiting.countdown.filter(isInReach).flatMap((row) => {
    const told = row.ticked ? passed(row, names, telling) : window(row, names, telling, until);
    const uid = `${roomId}-${row.milestone}@evenbed`;
    return told ? [{ ...told, uid, location: shortened(names.place, LONGEST_PLACE), sequence: made.sequence, changed_at: made.changedAt }] : [];
  });
}

/** Beyond these years no date is told: somebody's clock was wrong, and not every calendar has such years. */
const FIRST_YEAR = "1900";
const LAST_YEAR = "9000";

function isInReach({ ticked, early, likely, late }: Countdown): boolean {
  const years = (ticked ? [ticked.at] : [early, likely, late]).map((at) => at?.slice(0, LAST_YEAR.length));
  return years.every((year) => year === undefined || (year >= FIRST_YEAR && year <= LAST_YEAR));
}

type Told = Pick<CalendarDate, "from" | "to" | "summary" | "description" | "status">;

function window(row: Countdown, names: RoomNames, telling: Telling, until: number | null): Told | null {
  const { early, likely, late } = row;
  if (likely === null) return null;
  const { say, zone } = telling;
  const moments = { early: clockIn(zone, early ?? likely), likely: clockIn(zone, likely) };
  const basis = until === null ? "dates.on_foretold" : until >= Date.parse(likely) ? "dates.on_measured" : "dates.on_both";
  const when = late === null ? say("dates.window_open", moments) : say("dates.window", { ...moments, late: clockIn(zone, late) });
  const description = [when, say(basis), say("dates.no_test"), say("dates.zone", { zone })].join("\n");
  const summary = say(`dates.likely.${row.milestone}`, namesIn(names));
  return { from: early ?? likely, to: late ?? likely, summary, description, status: "tentative" };
}

function passed({ milestone, ticked }: Countdown, names: RoomNames, { say, zone }: Telling): Told | null {
  if (!ticked) return null;
  const by = shortened(ticked.by) || say("dates.somebody");
  const lines = [say("dates.passed_at", { at: clockIn(zone, ticked.at), by }), say(`dates.looked.${ticked.how}`), say("dates.zone", { zone })];
  const summary = say(`dates.passed.${milestone}`, { ...namesIn(names), by });
  return { from: ticked.at, to: ticked.at, summary, description: lines.join("\n"), status: "confirmed" };
}

function namesIn({ job, room }: RoomNames): Values {
  return { job: shortened(job), room: shortened(room) };
}

/** By whole characters. */
function shortened(text: string, most = LONGEST_NAME): string {
  return Array.from(text).slice(0, most).join("");
}

/** A moment by the clock of a zone, such as `2026-05-05 09:40`: the same on every phone, whatever its habits. */
export function clockIn(zone: string, at: string): string {
  const options = { timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;
  const parts = new Map(new Intl.DateTimeFormat("en-US", options).formatToParts(new Date(at)).map(({ type, value }) => [type, value]));
  const part = (name: Intl.DateTimeFormatPartTypes) => parts.get(name) ?? "";
  return `${part("year").padStart(4, "0")}-${part("month")}-${part("day")} ${part("hour")}:${part("minute")}`;
}
