/**
 * What each key does to what has been typed. The typed text is the whole state, so that it can be kept at every
 * press and picked up again after the screen was left.
 */
import { bareUnit, lengthFromText, type ReadLength, type Units } from "../units";

export type Key = `${0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9}` | "feet" | "point" | "minus" | "back" | "next" | `part-${number}`;

export interface Rules {
  readonly units: Units;
  /** Heights may lie below the benchmark. */
  readonly signed?: boolean;
  /** A reading is finished by its sixteenth, or by its fourth digit in mm, without a further key. */
  readonly goesOn?: boolean;
}

export interface Press {
  readonly text: string;
  readonly finished: boolean;
}

interface Parts {
  readonly minus: boolean;
  readonly feet: string | null;
  readonly digits: string;
  readonly sixteenths: string | null;
}

const MOST_DIGITS = 6;
const DIGITS_OF_A_READING = 4;
const SHAPE = /^(-?)(?:(\d+)')?(?:\s*)(\d*\.?\d*?)(?:\s*(\d+\/16))?$/;

function partsOf(text: string): Parts {
  const found = SHAPE.exec(text);
  if (!found) return { minus: false, feet: null, digits: "", sixteenths: null };
  return { minus: found[1] === "-", feet: found[2] ?? null, digits: found[3] ?? "", sixteenths: found[4] ?? null };
}

function textOf({ minus, feet, digits, sixteenths }: Parts): string {
  const pieces = [feet === null ? "" : `${feet}'`, digits, sixteenths ?? ''].filter((piece) => piece !== "");
  return `${minus ? "-" : ""}${pieces.join(" ")}`;
}

function withDigit(parts: Parts, digit: string): Parts {
  if (parts.sixteenths !== null || parts.digits.replace(".", "").length >= MOST_DIGITS) return parts;
  return { ...parts, digits: parts.digits === "0" ? digit : parts.digits + digit };
}

function withFeet(parts: Parts): Parts {
  const can = parts.feet === null && parts.sixteenths === null && /^\d+$/.test(parts.digits);
  return can ? { ...parts, feet: parts.digits, digits: "" } : parts;
}

function withPoint(parts: Parts): Parts {
  if (parts.sixteenths !== null || parts.digits.includes(".")) return parts;
  return { ...parts, digits: `${parts.digits || "0"}.` };
}

function withSixteenths(parts: Parts, over: number): Parts {
  return parts.digits.includes(".") ? parts : { ...parts, sixteenths: `${over}/16` };
}

function withoutLast(parts: Parts): Parts {
  if (parts.sixteenths !== null) return { ...parts, sixteenths: null };
  if (parts.digits !== "") return { ...parts, digits: parts.digits.slice(0, -1) };
  if (parts.feet !== null) return { ...parts, feet: null, digits: parts.feet };
  return { ...parts, minus: false };
}

function changed(parts: Parts, key: Key, rules: Rules): Parts {
  if (key === "back") return withoutLast(parts);
  if (key === "minus") return rules.signed ? { ...parts, minus: !parts.minus } : parts;
  if (key === "point") return withPoint(parts);
  if (key === "feet") return rules.units === "imperial" ? withFeet(parts) : parts;
  if (key.startsWith("part-")) return rules.units === "imperial" ? withSixteenths(parts, Number(key.slice(5))) : parts;
  return /^\d$/.test(key) ? withDigit(parts, key) : parts;
}

function isWhole(parts: Parts, key: Key, rules: Rules): boolean {
  if (!rules.goesOn) return false;
  if (rules.units === "imperial") return key.startsWith("part-") && parts.sixteenths !== null;
  return /^\d$/.test(key) && parts.digits.length === DIGITS_OF_A_READING && !parts.digits.includes(".");
}

/** What is typed after `key`, and whether that finishes it. */
export function press(text: string, key: Key, rules: Rules): Press {
  if (key === "next") return { text, finished: typedLength(text, rules.units) !== null };
  const parts = changed(partsOf(text), key, rules);
  return { text: textOf(parts), finished: isWhole(parts, key, rules) };
}

/** The length typed so far in mm, or null while it is none. */
export function typedLength(text: string, units: Units): number | null {
  const read: ReadLength = lengthFromText(text.replace(/\.$/, ""), bareUnit(units));
  return "mm" in read ? read.mm : null;
}

const PRIMES: Readonly<Record<string, string>> = { "-": "\u2212", "'": "\u2032" };

/** What is typed, as the screen shows it: `3′ 5 5/16″`. */
export function shownText(text: string, units: Units): string {
  if (text === "") return "";
  const parts = partsOf(text);
  const part = parts.sixteenths === null ? null : reduced(parts.sixteenths);
  const plain = textOf({ ...parts, sixteenths: part }).replace(/[-']/g, (sign) => PRIMES[sign] ?? sign);
  if (units === "metric") return `${plain} mm`;
  return parts.digits !== "" || part !== null ? `${plain}\u2033` : plain;
}

/** `8/16` as the tape shows it: `1/2`. */
export function reduced(sixteenths: string): string {
  let [over = 0, under = 16] = sixteenths.split("/").map(Number);
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${over}/${under}`;
}

const FROM_KEYBOARD: Readonly<Record<string, Key>> = {
  "'": "feet", f: "feet", ".": "point", ",": "point", "-": "minus", Backspace: "back", Enter: "next",
};

/** The key of the pad that a key of a real keyboard stands for, or null. */
export function keyFromKeyboard(name: string): Key | null {
  if (/^[0-9]$/.test(name)) return name as Key;
  return FROM_KEYBOARD[name] ?? null;
}
