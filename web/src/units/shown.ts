/** Quantities as a person reads them, in the person's units and language's own manner of writing numbers. */
import type { Units } from "./length";

const INCH_MM = 25.4;
const LB_KG = 0.45359237;
const FT2_M2 = 0.09290304;
const FT3_M3 = 0.028316846592;
const MINUS = "\u2212";
const NARROW = "\u202f";
const SPACE = "\u00a0";

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

function partText(over: number, under: number): string {
  const shared = greatestDivisor(over, under);
  return `${over / shared}/${under / shared}`;
}

/** `3′ 5 5/16″`: the nearest `parts`th of an inch (16 or 32), feet left out below one foot. */
export function feetInches(mm: number, parts = 16): string {
  const all = Math.round((Math.abs(mm) / INCH_MM) * parts);
  const feet = Math.floor(all / (12 * parts));
  const inches = Math.floor((all % (12 * parts)) / parts);
  const rest = all % parts;
  const number = rest === 0 ? `${inches}` : inches === 0 ? partText(rest, parts) : `${inches}${SPACE}${partText(rest, parts)}`;
  const sign = mm < 0 && all > 0 ? MINUS : "";
  if (feet === 0) return `${sign}${number}\u2033`;
  return inches === 0 && rest === 0 ? `${sign}${feet}\u2032` : `${sign}${feet}\u2032${SPACE}${number}\u2033`;
}

/** Inches alone, `17 5/16″`: for shims, thickness and steps, where nobody counts in feet. */
export function inchesOnly(mm: number, parts = 16): string {
  const all = Math.round((Math.abs(mm) / INCH_MM) * parts);
  const inches = Math.floor(all / parts);
  const rest = all % parts;
  const number = rest === 0 ? `${inches}` : inches === 0 ? partText(rest, parts) : `${inches}${SPACE}${partText(rest, parts)}`;
  return `${mm < 0 && all > 0 ? MINUS : ""}${number}\u2033`;
}

/** A number with at most `places` decimals, as the language writes it. */
export function numberText(value: number, places: number, language: string): string {
  const text = new Intl.NumberFormat(language, { maximumFractionDigits: places, minimumFractionDigits: 0 }).format(value);
  return text === "-0" ? "0" : text.replace("-", MINUS);
}

/** A number rounded to `figures` significant figures, for quantities known no better than that. */
export function roundedText(value: number, figures: number, language: string): string {
  const text = new Intl.NumberFormat(language, { maximumSignificantDigits: figures }).format(value);
  return text === "-0" ? "0" : text.replace("-", MINUS);
}

export interface Reader {
  readonly units: Units;
  readonly language: string;
}

/** A length: along a wall, a place, a rod reading. */
export function lengthText(mm: number, { units, language }: Reader): string {
  return units === "imperial" ? feetInches(mm) : `${numberText(mm, 1, language)}${NARROW}mm`;
}

/** A thickness, a shim, a step: inches and sixteenths alone, or mm to the nearest half. */
export function depthText(mm: number, { units, language }: Reader): string {
  return units === "imperial" ? inchesOnly(mm) : `${numberText(Math.round(mm * 2) / 2, 1, language)}${NARROW}mm`;
}

/** A height above or below the benchmark, always with its sign. */
export function heightText(mm: number, reader: Reader): string {
  const text = depthText(mm, reader);
  return mm > 0 && !/^0\D/.test(text) ? `+${text}` : text;
}

export function areaText(m2: number, { units, language }: Reader): string {
  return units === "imperial" ? `${numberText(m2 / FT2_M2, 1, language)}${NARROW}ft²` : `${numberText(m2, 2, language)}${NARROW}m²`;
}

export function volumeText(m3: number, { units, language }: Reader): string {
  return units === "imperial" ? `${roundedText(m3 / FT3_M3, 3, language)}${NARROW}ft³` : `${numberText(m3, 3, language)}${NARROW}m³`;
}

export function massText(kg: number, { units, language }: Reader): string {
  return units === "imperial" ? `${roundedText(kg / LB_KG, 3, language)}${NARROW}lb` : `${roundedText(kg, 3, language)}${NARROW}kg`;
}

/** A load in both units, the person's first: the people who decide on it read either. */
export function loadText(kgM2: number, { units, language }: Reader): string {
  const metric = `${numberText(kgM2, 0, language)}${NARROW}kg/m²`;
  const imperial = `${numberText((kgM2 / LB_KG) * FT2_M2, 1, language)}${NARROW}lb/ft²`;
  return units === "imperial" ? `${imperial} (${metric})` : `${metric} (${imperial})`;
}

export function temperatureText(celsius: number, { units, language }: Reader): string {
  const shown = units === "imperial" ? (celsius * 9) / 5 + 32 : celsius;
  return `${numberText(shown, 0, language)}${NARROW}${units === "imperial" ? "°F" : "°C"}`;
}

export function celsiusFrom(value: number, units: Units): number {
  return units === "imperial" ? ((value - 32) * 5) / 9 : value;
}


/** Water by its volume: US gallons or litres. */
export function waterText(litres: number, { units, language }: Reader): string {
  return units === "imperial" ? `${numberText(litres / 3.785411784, 1, language)}${NARROW}gal` : `${numberText(litres, 0, language)}${NARROW}L`;
}

/** Hours told as a person tells them: `20 h`, `3 d 4 h`. */
export function hoursText(hours: number, { language }: Reader): string {
  if (hours < 48) return `${numberText(hours, hours < 10 ? 1 : 0, language)}${NARROW}h`;
  const all = Math.round(hours);
  const rest = all % 24;
  const days = `${numberText(Math.floor(all / 24), 0, language)}${NARROW}d`;
  return rest === 0 ? days : `${days} ${rest}${NARROW}h`;
}

/** Day and hour in this phone's own time zone. */
export function momentText(iso: string, { language }: Reader): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return new Intl.DateTimeFormat(language, { weekday: "short", month: "short", day: "numeric", hour: "numeric", minute: "2-digit" }).format(at);
}

/** Hour and minute only. */
export function clockText(iso: string, { language }: Reader): string {
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? iso : new Intl.DateTimeFormat(language, { hour: "numeric", minute: "2-digit" }).format(at);
}
