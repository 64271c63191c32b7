/** Weather and moments to come, as a person tells them. */
import { clockText, localeOf, momentText, numberText, type Reader } from "./shown";

const LB_FT2_PER_KG_M2 = 0.20481614362; // 0.09290304 / 0.45359237
const MILE_KM = 1.609344;
const NARROW = "\u202f";
const DAY_MS = 86_400_000;

/** How fast a wet surface dries. */
export function rateText(kgM2h: number, { units, language }: Reader): string {
  if (units === "metric") return `${numberText(kgM2h, 2, language)}${NARROW}kg/(m²·h)`;
  return `${numberText(kgM2h * LB_FT2_PER_KG_M2, 2, language)}${NARROW}lb/(ft²·h)`;
}

/** A drying rate in the person's unit, as a bare figure. */
export function shownRate(kgM2h: number, { units }: Pick<Reader, "units">): number {
  return units === "imperial" ? kgM2h * LB_FT2_PER_KG_M2 : kgM2h;
}

/** The speed of wind. */
export function speedText(kmH: number, { units, language }: Reader): string {
  const isImperial = units === "imperial";
  return `${numberText(isImperial ? kmH / MILE_KM : kmH, 0, language)}${NARROW}${isImperial ? "mph" : "km/h"}`;
}

/** km/h from what the person types. */
export function kmHFrom(value: number, { units }: Pick<Reader, "units">): number {
  return units === "imperial" ? value * MILE_KM : value;
}

function midnightOf(ms: number): number {
  return new Date(ms).setHours(0, 0, 0, 0);
}

/** `tomorrow`, `yesterday`, or null for a day farther away. */
function nearDay(at: number, { language }: Reader, now: number): string | null {
  const days = Math.round((midnightOf(at) - midnightOf(now)) / DAY_MS); // rounded: a day may have 23 or 25 hours
  return Math.abs(days) > 1 ? null : new Intl.RelativeTimeFormat(language, { numeric: "auto" }).format(days, "day");
}

/** `tomorrow 10:40 AM`: yesterday, today and tomorrow by their names, other days as `momentText` has them. */
export function soonText(iso: string, reader: Reader, now = Date.now()): string {
  const at = Date.parse(iso);
  if (Number.isNaN(at)) return iso;
  const near = nearDay(at, reader, now);
  return near === null ? momentText(iso, reader) : `${near} ${clockText(iso, reader)}`;
}

/** `tomorrow 2 PM`: the same to the hour. */
export function soonHourText(iso: string, reader: Reader, now = Date.now()): string {
  const at = Date.parse(iso);
  if (Number.isNaN(at)) return iso;
  const near = nearDay(at, reader, now);
  if (near !== null) return `${near} ${clockHourText(at, reader)}`;
  return new Intl.DateTimeFormat(localeOf(reader.language), { weekday: "short", month: "short", day: "numeric", hour: "numeric" }).format(at);
}

/** The next whole `minutes` of the hour at or after a moment: a window is not told finer than it is known. */
export function roundedUp(iso: string, minutes: number): string {
  const at = new Date(iso);
  const past = (at.getMinutes() % minutes) * 60_000 + at.getSeconds() * 1000 + at.getMilliseconds();
  return past === 0 ? iso : new Date(at.getTime() - past + minutes * 60_000).toISOString();
}

/** `Mon 30`: a day on an axis. */
export function dayText(ms: number, { language }: Pick<Reader, "language">): string {
  const name = new Intl.DateTimeFormat(localeOf(language), { weekday: "short" }).format(ms);
  return `${name} ${new Date(ms).getDate()}`;
}

/** `6 AM`: an hour on an axis. */
export function clockHourText(ms: number, { language }: Pick<Reader, "language">): string {
  return new Intl.DateTimeFormat(localeOf(language), { hour: "numeric" }).format(ms);
}

/** `Dec 14`: a day on an axis of weeks. */
export function dateText(ms: number, { language }: Pick<Reader, "language">): string {
  return new Intl.DateTimeFormat(localeOf(language), { month: "short", day: "numeric" }).format(ms);
}

/** `Dec 14, 2:53 PM`: a moment in a narrow table. */
export function shortMoment(iso: string, { language }: Pick<Reader, "language">): string {
  const at = Date.parse(iso);
  return Number.isNaN(at) ? iso : new Intl.DateTimeFormat(localeOf(language), { month: "short", day: "numeric", hour: "numeric", minute: "2-digit" }).format(at);
}
