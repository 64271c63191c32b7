/** Quantities as a person reads them, in the person's units and language's own manner of writing numbers. */
import type { Units } from "./length";

const INCH_MM = 25.4;
const LB_KG = 0.45359237;
const FT2_M2 = 0.09290304;
const FT3_M3 = 0.028316846592;
const TIE_TOLERANCE = 1e-9; // of a step
const MINUS = "\u2212";
const NARROW = "\u202f";
const SPACE = "\u00a0";

/** Both languages are read here as in the United States: a point before decimals, as on the tape and on the keys. */
export function localeOf(language: string): string {
  return language === "es" ? "es-US" : "en-US";
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

function partText(over: number, under: number): string {
  const shared = greatestDivisor(over, under);
  return `${over / shared}/${under / shared}`;
}

/** How many whole `parts`ths of an inch lie nearest; a tie goes away from zero, as the engine has it. */
function stepsOf(mm: number, parts: number): number {
  return Math.floor((Math.abs(mm) / INCH_MM) * parts + 0.5 + TIE_TOLERANCE);
}

function inchText(steps: number, parts: number): string {
  const [inches, rest] = [Math.floor(steps / parts), steps % parts];
  if (rest === 0) return `${inches}\u2033`;
  return `${inches === 0 ? "" : `${inches}${SPACE}`}${partText(rest, parts)}\u2033`;
}

/** `3′ 5 5/16″`: the nearest `parts`th of an inch, feet left out below one foot. */
export function feetInches(mm: number, parts = 16): string {
  const steps = stepsOf(mm, parts);
  const feet = Math.floor(steps / (12 * parts));
  const text = inchText(steps % (12 * parts), parts);
  return `${mm < 0 && steps > 0 ? MINUS : ""}${feet === 0 ? "" : `${feet}\u2032${SPACE}`}${text}`;
}

/** Inches alone, `17 5/16″`: for shims, thickness and steps, where nobody counts in feet. */
export function inchesOnly(mm: number, parts = 16): string {
  const steps = stepsOf(mm, parts);
  return `${mm < 0 && steps > 0 ? MINUS : ""}${inchText(steps, parts)}`;
}

const formats = new Map<string, Intl.NumberFormat>(); // each takes longer to make than a hundred figures to write

function plainFormat(places: number, language: string): Intl.NumberFormat {
  const key = `${localeOf(language)}:${places}`;
  const known = formats.get(key) ?? new Intl.NumberFormat(localeOf(language), { maximumFractionDigits: places, useGrouping: false });
  formats.set(key, known);
  return known;
}

/** A number with at most `places` decimals. No mark between thousands: typed back, a comma would be a decimal point. */
export function numberText(value: number, places: number, language: string): string {
  const text = plainFormat(places, language).format(value);
  return text === "-0" ? "0" : text.replace("-", MINUS);
}

/** A number rounded to `figures` significant figures, for quantities known no better than that. */
export function roundedText(value: number, figures: number, language: string): string {
  const text = new Intl.NumberFormat(localeOf(language), { maximumSignificantDigits: figures }).format(value);
  return text === "-0" ? "0" : text.replace("-", MINUS);
}

export interface Reader {
  readonly units: Units;
  readonly language: string;
}

const LONG = 10_000; // mm: from here on metres are easier to read

/** A length: along a wall, a place, a rod reading. */
export function lengthText(mm: number, { units, language }: Reader): string {
  if (units === "metric" && Math.abs(mm) >= LONG) return `${numberText(mm / 1000, 3, language)}${NARROW}m`;
  return units === "imperial" ? feetInches(mm) : `${numberText(mm, 1, language)}${NARROW}mm`;
}

/** A thickness, a shim, a step: inches and sixteenths alone, or mm to the nearest half. */
export function depthText(mm: number, { units, language }: Reader): string {
  return units === "imperial" ? inchesOnly(mm) : `${numberText(Math.round(mm * 2) / 2, 1, language)}${NARROW}mm`;
}

/** A standard error, much finer than a rod is read: tenths of mm, or sixty-fourths of an inch. */
export function errorText(mm: number, { units, language }: Reader): string {
  return units === "imperial" ? inchesOnly(mm, 64) : `${numberText(mm, 1, language)}${NARROW}mm`;
}

/** A gap under a straightedge, a limit, how far the bed is off: tenths of mm, or thirty-seconds of an inch. */
export function gapText(mm: number, { units, language }: Reader): string {
  return units === "imperial" ? inchesOnly(mm, 32) : `${numberText(mm, 1, language)}${NARROW}mm`;
}

/** The same without "mm": on the drawing, where every figure is one. */
export function markText(text: string): string {
  return text.replace(/\u202fmm$/, "");
}

/** A height above or below the benchmark, always with its sign. */
export function heightText(mm: number, reader: Reader): string {
  const text = depthText(mm, reader);
  return mm > 0 && !/^0[^\d.]/.test(text) ? `+${text}` : text;
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

/** An amount of money, two decimals, with a mark between thousands: it is read and not typed back. */
export function moneyNumber(amount: number, { language }: Reader): string {
  const text = new Intl.NumberFormat(localeOf(language), { minimumFractionDigits: 2, maximumFractionDigits: 2 }).format(amount);
  return text.replace("-", MINUS);
}

/** A difference of temperature, in the person's degrees. */
export function warmthText(kelvin: number, { units, language }: Reader): string {
  return units === "imperial" ? `${numberText(kelvin * 1.8, 0, language)}${NARROW}°F` : `${numberText(kelvin, 1, language)}${NARROW}°C`;
}

/** How much something grows for each degree of the person's, in millionths. */
export function expansionText(perKelvin: number, { units, language }: Reader): string {
  return units === "imperial" ? `${numberText((perKelvin * 1e6) / 1.8, 2, language)} ×10⁻⁶/°F` : `${numberText(perKelvin * 1e6, 2, language)} ×10⁻⁶/°C`;
}

/** A load in both units, the person's first: the people who decide on it read either. */
export function loadText(kgM2: number, reader: Reader): string {
  const other: Reader = { ...reader, units: reader.units === "imperial" ? "metric" : "imperial" };
  return `${loadShortText(kgM2, reader)} (${loadShortText(kgM2, other)})`;
}

/** A load in the person's own unit, where there is no room for both. */
export function loadShortText(kgM2: number, { units, language }: Reader): string {
  if (units === "metric") return `${numberText(kgM2, 0, language)}${NARROW}kg/m²`;
  return `${numberText((kgM2 / LB_KG) * FT2_M2, 1, language)}${NARROW}lb/ft²`;
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
  return new Intl.DateTimeFormat(localeOf(language), { weekday: "short", month: "short", day: "numeric", hour: "numeric", minute: "2-digit" }).format(at);
}

/** Day, hour and year, for what is filed: a record is read when nobody remembers which year it was. */
export function datedText(iso: string, { language }: Reader): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return new Intl.DateTimeFormat(localeOf(language), { year: "numeric", month: "short", day: "numeric", hour: "numeric", minute: "2-digit" }).format(at);
}

/** Hour and minute only. */
export function clockText(iso: string, { language }: Reader): string {
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? iso : new Intl.DateTimeFormat(localeOf(language), { hour: "numeric", minute: "2-digit" }).format(at);
}
