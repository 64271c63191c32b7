/** How each milestone stands by records and clock: what the engine said a minute ago, and what somebody ticked since. */
import { entriesOf, type Row } from "../../state";
import type { WaitingAnswer } from "../../wire";

export type Countdown = WaitingAnswer["countdown"][number];
export type WaitState = Countdown["state"];

const MINUTE_MS = 60_000;
const HOUR_MIN = 60;
const DAY_MIN = 24 * HOUR_MIN;
const LONG_MIN = 2 * DAY_MIN; // from here on whole hours are enough
const WEEKS_MIN = 14 * DAY_MIN; // and from here on whole days

export interface Milestone extends Countdown {
  /** The record of the tick; null while nobody looked. */
  readonly tick: Row<"entry"> | null;
}

/** The last tick of each milestone, by its moment; of two at one moment the later record. */
export function ticksFrom(entries: readonly Row<"entry">[]): ReadonlyMap<string, Row<"entry">> {
  const ticks = entries.filter(({ fields }) => fields.what === "milestone" && fields.code && fields.at);
  const inOrder = [...ticks].sort((a, b) => Date.parse(a.fields.at ?? "") - Date.parse(b.fields.at ?? "") || (a.id < b.id ? -1 : 1));
  return new Map(inOrder.map((row) => [row.fields.code ?? "", row]));
}

/** `now` (ms) moves the state on between two answers of the engine; ticks count as soon as they stand. */
export function milestonesAt(countdown: readonly Countdown[], ticks: ReadonlyMap<string, Row<"entry">>, now: number): readonly Milestone[] {
  return countdown.map((one) => {
    const tick = ticks.get(one.milestone) ?? null;
    return { ...one, tick, state: tick ? "ticked" : stateAt(one, now) };
  });
}

function stateAt({ state, early, late }: Countdown, now: number): WaitState {
  if (state === "not_placed" || state === "never") return state;
  if (late !== null && now >= Date.parse(late)) return "should_be_ready";
  return early !== null && now >= Date.parse(early) ? "may_be_ready" : "waiting";
}

/** The one that is looked for next: the first that nobody ticked. Null once all are. */
export function nextOf(milestones: readonly Milestone[]): Milestone | null {
  return milestones.find(({ tick }) => tick === null) ?? null;
}

/** Subscribes. */
export function milestonesOf(roomId: string, answer: WaitingAnswer, now: number): readonly Milestone[] {
  return milestonesAt(answer.countdown, ticksFrom(entriesOf(roomId).value), now);
}

export interface Left {
  readonly isPast: boolean;
  /** The largest figure and the one after it: days and hours, hours and minutes, or minutes alone. */
  readonly parts: readonly { readonly figure: number; readonly unit: "days" | "hours" | "minutes" }[];
}

/** What is left until a moment, in whole minutes; from two days on in whole hours, from two weeks on in whole days. */
export function leftUntil(at: number, now: number): Left {
  const isPast = now > at;
  const minutes = Math.floor(Math.abs(at - now) / MINUTE_MS);
  if (minutes >= WEEKS_MIN) return { isPast, parts: [{ figure: Math.floor(minutes / DAY_MIN), unit: "days" }] };
  if (minutes >= LONG_MIN) return { isPast, parts: [{ figure: Math.floor(minutes / DAY_MIN), unit: "days" }, { figure: Math.floor((minutes % DAY_MIN) / HOUR_MIN), unit: "hours" }] };
  if (minutes < HOUR_MIN) return { isPast, parts: [{ figure: minutes, unit: "minutes" }] };
  return { isPast, parts: [{ figure: Math.floor(minutes / HOUR_MIN), unit: "hours" }, { figure: minutes % HOUR_MIN, unit: "minutes" }] };
}

export type Doubt = "early" | "not_placed" | "never";

/** Why a look at `at` (ms) is asked about once more; null where nothing speaks against it. */
export function doubtOf({ state, early }: Pick<Countdown, "state" | "early">, at: number): Doubt | null {
  if (state === "not_placed" || state === "never") return state;
  return early !== null && at < Date.parse(early) ? "early" : null;
}

export interface TimeLine {
  readonly from: number;
  readonly to: number;
}

const BEYOND = 0.15; // of the line: that much is shown past the late end

/** The line of time of a window, from placing to somewhat beyond its late end; null without a window. */
export function timeLineOf(placedAt: string | null, { likely, late }: Pick<Countdown, "likely" | "late">): TimeLine | null {
  if (placedAt === null || likely === null) return null;
  const [from, end] = [Date.parse(placedAt), Date.parse(late ?? likely)];
  return { from, to: from + Math.max(MINUTE_MS, (end - from) * (1 + BEYOND)) };
}

/** Where a moment lies on the line, 0 to 1. */
export function shareOf({ from, to }: TimeLine, at: number): number {
  return Math.min(1, Math.max(0, (at - from) / (to - from)));
}

/** True where the whole window lies on one day of this phone's calendar. */
export function isOneDay(...moments: readonly (string | null)[]): boolean {
  return new Set(moments.map((at) => new Date(at ?? "").toDateString())).size === 1;
}
