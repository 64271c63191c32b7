/** The coming week as a strip: where each window lies on it. */
import type { Milestone } from "../waiting/standing";

const DAYS = 7;

/** Eight midnights of this phone's calendar, from today's on: daylight saving makes a day longer or shorter. */
export function weekFrom(now: number): readonly number[] {
  const day = new Date(now);
  return Array.from({ length: DAYS + 1 }, (_, index) => new Date(day.getFullYear(), day.getMonth(), day.getDate() + index).getTime());
}

export interface WeekBar {
  readonly milestone: Milestone["milestone"];
  /** Shares of the strip, 0 to 1. */
  readonly from: number;
  readonly to: number;
  readonly likely: number;
}

/** The windows that nobody let pass, as far as they lie in the week. Each day is as wide as another. */
export function barsIn(week: readonly number[], milestones: readonly Milestone[]): readonly WeekBar[] {
  const [first = 0, last = 0] = [week[0], week.at(-1)];
  return milestones.flatMap(({ milestone, tick, early, likely, late }) => {
    if (tick !== null || likely === null) return [];
    const [from, at, to] = [early ?? likely, likely, late ?? likely].map((moment) => Date.parse(moment)) as [number, number, number];
    return to <= first || from >= last ? [] : [{ milestone, from: shareAt(week, from), to: shareAt(week, to), likely: shareAt(week, at) }];
  });
}

/** Where a moment lies on the strip, 0 to 1. */
export function shareAt(week: readonly number[], at: number): number {
  const day = week.findIndex((midnight, index) => at >= midnight && at < (week[index + 1] ?? midnight));
  if (day < 0) return at < (week[0] ?? 0) ? 0 : 1;
  const [begins = 0, ends = 1] = [week[day], week[day + 1]];
  return (day + (at - begins) / (ends - begins)) / DAYS;
}
