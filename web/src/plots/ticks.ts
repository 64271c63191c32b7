/** Round marks for the axes of a plot: of figures, and of this phone's own time, midnights where they truly are. */

const HOUR_MS = 3_600_000;
const HOUR_STEPS = [1, 2, 3, 6, 12] as const;
const DAY_STEPS = [1, 2, 4, 7, 14, 28, 56, 112, 364] as const;
const TOLERANCE = 1e-9; // of a step: what the sum of steps may be out by

/** The least of 1, 2, 5 times a power of ten that cuts `span` (> 0) into at most `most` steps. */
export function roundStep(span: number, most: number): number {
  const least = span / most;
  const power = 10 ** Math.floor(Math.log10(least));
  return (([1, 2, 5] as const).find((times) => times * power >= least * (1 - TOLERANCE)) ?? 10) * power;
}

/** From at or below `low` to at or above `high`, both whole steps: the ends of an axis, and every mark between them. */
export function roundTicks(low: number, high: number, most: number): readonly number[] {
  const step = roundStep(Math.max(high - low, TOLERANCE), most);
  const first = Math.floor(low / step + TOLERANCE);
  const last = Math.max(first + 1, Math.ceil(high / step - TOLERANCE));
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step);
}

export interface TimeTick {
  readonly at: number;
  readonly isMidnight: boolean;
}

/**
 * Whole hours of the day, or midnights, between two moments (ms), at most about `most` of them. On the day when clocks go
 * forward or back the hours stay those on the wall; an hour that the wall skips has no mark.
 */
export function timeTicks(from: number, to: number, most: number): readonly TimeTick[] {
  const hours = HOUR_STEPS.find((step) => (to - from) / (step * HOUR_MS) <= most);
  const days = DAY_STEPS.find((step) => (to - from) / (step * 24 * HOUR_MS) <= most) ?? DAY_STEPS[DAY_STEPS.length - 1] ?? 1;
  const found = hours === undefined ? midnights(from, to, days) : wallHours(from, to, hours);
  return found.filter((at, index) => at >= from && at <= to && at !== found[index - 1]).map((at) => ({ at, isMidnight: new Date(at).getHours() === 0 }));
}

function midnights(from: number, to: number, step: number): readonly number[] {
  const found: number[] = [];
  const day = new Date(from);
  day.setHours(0, 0, 0, 0);
  for (; day.getTime() <= to; day.setDate(day.getDate() + step)) found.push(day.getTime());
  return found;
}

function wallHours(from: number, to: number, step: number): readonly number[] {
  return midnights(from, to, 1).flatMap((midnight) => Array.from({ length: 24 / step }, (_, index) => new Date(midnight).setHours(index * step)));
}
