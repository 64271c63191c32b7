/** Plain numbers (temperatures, parts, degrees, bags) typed with the same pad: no feet, no sixteenths. */
import type { Key } from "./keys";

const MOST_CHARACTERS = 9;

function toggled(text: string): string {
  return text.startsWith("-") ? text.slice(1) : `-${text}`;
}

/** What is typed after `key`; `next` finishes it where it is a number. */
export function pressNumber(text: string, key: Key, signed: boolean): { readonly text: string; readonly finished: boolean } {
  if (key === "next") return { text, finished: typedNumber(text) !== null };
  if (key === "back") return { text: text.slice(0, -1), finished: false };
  if (key === "minus") return { text: signed ? toggled(text) : text, finished: false };
  if (text.length >= MOST_CHARACTERS) return { text, finished: false };
  if (key === "point") return { text: text.includes(".") ? text : `${text === "" || text === "-" ? `${text}0` : text}.`, finished: false };
  return { text: /^\d$/.test(key) ? text + key : text, finished: false };
}

/** The number typed so far, or null while it is none. */
export function typedNumber(text: string): number | null {
  if (!/\d/.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}

/** What is typed, with a true minus. */
export function shownNumber(text: string): string {
  return text.replace("-", "\u2212");
}
