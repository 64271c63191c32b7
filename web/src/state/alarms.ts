/**
 * Alarms of the room that is filled with this phone: which came due, which were heard, whether they may make a noise.
 * Kept on the phone, so that closing the app neither loses an alarm nor repeats one.
 */
import { effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Alarm, Row } from "../wire";
import type { SectionTimes } from "./worked";

const KEPT_AT = "evenbed.alarms";
const MOST_HEARD = 200;
const STALE_MS = 12 * 3_600_000; // an alarm of yesterday helps nobody

export interface AlarmBook {
  /** The room that is filled with this phone; null where none is. */
  readonly room: string | null;
  readonly isSilent: boolean;
  /** Keys of alarms that somebody heard, the newest last. */
  readonly heard: readonly string[];
  /** Keys of alarms that were sounded, heard or not. */
  readonly sounded: readonly string[];
  /** What the engine last foretold of that room, and what came due before it. */
  readonly alarms: readonly Alarm[];
}

const NOTHING: AlarmBook = { room: null, isSilent: false, heard: [], sounded: [], alarms: [] };
const book: Signal<AlarmBook> = signal(kept());

export const alarmBook: ReadonlySignal<AlarmBook> = book;

/** The room whose alarms this phone gives from now on: the one somebody taps in. */
export function fillHere(room: string): void {
  if (book.peek().room !== room) book.value = { ...book.peek(), room, alarms: [] };
}

export function silenceAlarms(isSilent: boolean): void {
  book.value = { ...book.peek(), isSilent };
}

export function hearAlarm(key: string): void {
  book.value = { ...book.peek(), heard: withKey(book.peek().heard, key) };
}

export function noteSounded(key: string): void {
  book.value = { ...book.peek(), sounded: withKey(book.peek().sounded, key) };
}

/** Takes what the engine foretells now, keeping what came due before. */
export function takeAlarms(foretold: readonly Alarm[], now: number): void {
  const alarms = joinedAlarms(book.peek().alarms, foretold, now);
  if (JSON.stringify(alarms) !== JSON.stringify(book.peek().alarms)) book.value = { ...book.peek(), alarms };
}

/** One alarm, whatever minute it is foretold for: a pace that changes rings nothing twice. */
export function alarmKey({ code, batch, section, at }: Alarm): string {
  return `${code}:${batch ?? section ?? at.slice(0, 10)}`;
}

/** What is foretold now, and of what was foretold before that which came due since. */
export function joinedAlarms(before: readonly Alarm[], foretold: readonly Alarm[], now: number): readonly Alarm[] {
  const told = new Set(foretold.map(alarmKey));
  const due = before.filter((alarm) => isDue(alarm, now) && !told.has(alarmKey(alarm)));
  return [...due, ...foretold];
}

export interface Worked {
  readonly batches: readonly Row<"batch">[];
  readonly times: ReadonlyMap<string, SectionTimes>;
}

/** The alarms that ring: due, of today, not heard, and about what is still to be done. The newest first. */
export function ringingAlarms({ alarms, heard }: Pick<AlarmBook, "alarms" | "heard">, worked: Worked, now: number): readonly Alarm[] {
  const ringing = alarms.filter((alarm) => isDue(alarm, now) && !heard.includes(alarmKey(alarm)) && isOpen(alarm, worked));
  const late = new Set(ringing.filter(({ code }) => code === "use_by").map(({ batch }) => batch));
  return ringing.filter(({ code, batch }) => code !== "use_soon" || !late.has(batch)).sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
}

function isDue({ at }: Alarm, now: number): boolean {
  const since = now - Date.parse(at);
  return since >= 0 && since < STALE_MS;
}

/** Nobody need be told of a batch that is in place or gone, or of channels that are packed. */
function isOpen({ batch, section, code }: Alarm, { batches, times }: Worked): boolean {
  const row = batches.find(({ id }) => id === batch);
  if (batch !== null) return row !== undefined && isBatchOpen(row, times);
  const channels = times.get(section ?? "");
  return code !== "channels" || (Boolean(channels?.screeded_at) && !channels?.channels_at);
}

/** Still to be used: a section that is in place has all that was mixed for it before, as the engine has it. */
export function isBatchOpen({ fields }: Row<"batch">, times: ReadonlyMap<string, SectionTimes>): boolean {
  const { section, mixed_at, placed_at, thrown_at } = fields;
  if (!mixed_at || placed_at || thrown_at) return false;
  const told = times.get(section ?? "");
  const whole = told?.placed_at ?? told?.screeded_at ?? told?.channels_at;
  return whole === undefined || Date.parse(whole) < Date.parse(mixed_at);
}

function withKey(keys: readonly string[], key: string): readonly string[] {
  return [...keys.filter((one) => one !== key), key].slice(-MOST_HEARD);
}

function kept(): AlarmBook {
  const text = typeof localStorage === "undefined" ? null : localStorage.getItem(KEPT_AT);
  return text === null ? NOTHING : { ...NOTHING, ...(JSON.parse(text) as Partial<AlarmBook>) };
}

effect(() => {
  const text = JSON.stringify(book.value);
  if (typeof localStorage !== "undefined") localStorage.setItem(KEPT_AT, text);
});
