/** Falls: inches in a foot, or percent, as the person reads and types them. */
import type { Reader } from "./shown";
import { inchesOnly, numberText } from "./shown";

const FOOT = 304.8; // mm
const PARTS = 64; // of an inch: falls are small
const PERCENT = 100;

/** `1/4″/ft`, or `2.1 %`. */
export function fallText(ratio: number, { units, language }: Reader): string {
  if (units === "metric") return `${numberText(ratio * PERCENT, 2, language)}\u202f%`;
  return `${inchesOnly(ratio * FOOT, PARTS)}/${language === "es" ? "pie" : "ft"}`;
}

/** What is typed for a fall: mm in a foot (inches on the keys), or percent. */
export function fallFromTyped(typed: number, { units }: Reader): number {
  return units === "metric" ? typed / PERCENT : typed / FOOT;
}
