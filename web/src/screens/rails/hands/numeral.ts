/** A shim taken apart, so that its figures fill the screen: sign, whole number, fraction, unit. */
export interface Numeral {
  readonly minus: boolean;
  readonly whole: string;
  /** Numerator and denominator; null for a whole number. */
  readonly part: readonly [over: string, under: string] | null;
  readonly unit: string;
}

const SHAPE = /^(\u2212)?(\d*)\u00a0?(?:(\d+)\/(\d+))?(\u2033|\u202fmm)$/;

/** `1 5/16\u2033` or `33 mm` as its parts. Throws where it is neither. */
export function numeralOf(text: string): Numeral {
  const found = SHAPE.exec(text);
  if (!found) throw new Error(`Not a shim: ${text}`);
  const [, minus, whole = "", over, under, unit = ""] = found;
  return { minus: minus !== undefined, whole, part: over && under ? [over, under] : null, unit: unit.trim() };
}

/** How much room the figures take across: `part`, or how many digits stand beside one another. */
export function sizeOf({ whole, part, minus, unit }: Numeral): string {
  const digits = whole.length + (minus ? 1 : 0);
  if (part) return `with-part digits-${Math.min(digits, 2)}`;
  return `digits-${Math.min(Math.max(digits, 1), 4)}${unit === "mm" ? " in-mm" : ""}`;
}
