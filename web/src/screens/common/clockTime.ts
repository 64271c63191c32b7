/** Moments told by the hour and minute alone, as on a clock on the wall. */

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;

function two(value: number): string {
  return `${value}`.padStart(2, "0");
}

/** `17:05` in this phone's own time, as a field for times of day takes it. */
export function timeOfDay(at: number): string {
  const moment = new Date(at);
  return `${two(moment.getHours())}:${two(moment.getMinutes())}`;
}

/** The moment with that hour and minute that lies nearest to `near`, ms; null for a text that is no time of day. */
export function momentNear(time: string, near: number): number | null {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})/.exec(time) ?? [];
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59) return null;
  const same = new Date(near).setHours(Number(hours), Number(minutes), 0, 0);
  const around = [same - DAY_MS, same, same + DAY_MS];
  return around.reduce((best, one) => (Math.abs(one - near) < Math.abs(best - near) ? one : best));
}

export function minutesLater(at: number, minutes: number): number {
  return at + minutes * MINUTE_MS;
}

export function isSameDay(one: number, other: number): boolean {
  return new Date(one).toDateString() === new Date(other).toDateString();
}
