/** How the small values of all kinds of records are written. */
import { jobOf, roomOf } from "../../state";
import { depthText, hoursText, lengthText, momentText, numberText, temperatureText } from "../../units";
import type { Typed } from "../../wire";
import { reader, t } from "../../words";

const LONG = 600; // mm: longer things are told in feet
const KM_PER_MILE = 1.609344;

export const text = (value: string) => (value === "" ? t("value.nothing") : value);
export const yesOrNo = (value: boolean) => (value ? t("yes") : t("no"));
export const plain = (value: number) => numberText(value, 2, reader.value.language);
export const moment = (iso: string) => momentText(iso, reader.value);
export const degrees = (celsius: number) => temperatureText(celsius, reader.value);
export const hours = (value: number) => hoursText(value, reader.value);
export const length = (mm: number) => lengthText(mm, reader.value);
export const measure = (mm: number) => (mm >= LONG ? length(mm) : depthText(mm, reader.value));
export const percent = (value: number) => `${numberText(value * 100, 1, reader.value.language)}\u202f%`;
export const humidity = (value: number) => `${plain(value)}\u202f%`;
export const kilobytes = (bytes: number) => t("value.kilobytes", { kilobytes: Math.ceil(bytes / 1000) });
export const jobName = (id: string) => jobOf(id)?.fields.name ?? t("value.gone");
export const roomName = (id: string) => roomOf(id)?.fields.name ?? t("value.gone");
export const typedText = (typed: Typed) => list(text)(Object.values(typed));

export function list<T>(one: (value: T) => string): (values: readonly T[]) => string {
  return (values) => (values.length === 0 ? t("value.nothing") : values.map(one).join("; "));
}

export function wind(kmH: number): string {
  const isImperial = reader.value.units === "imperial";
  return `${numberText(isImperial ? kmH / KM_PER_MILE : kmH, 0, reader.value.language)}\u202f${isImperial ? "mph" : "km/h"}`;
}
