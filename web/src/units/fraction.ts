/** Exact fractions of whole numbers; the second is above zero. */
export type Fraction = readonly [over: bigint, under: bigint];

const DOUBLE_BITS = 64n;

export function fractionFromDecimal(decimal: string): Fraction {
  const [whole = "", part = ""] = decimal.split(".");
  return [BigInt(`${whole}${part}` || "0"), 10n ** BigInt(part.length)];
}

export function plus([a, b]: Fraction, [c, d]: Fraction): Fraction {
  return [a * d + c * b, b * d];
}

export function times([a, b]: Fraction, [c, d]: Fraction): Fraction {
  return [a * c, b * d];
}

export function isBelow([a, b]: Fraction, [c, d]: Fraction): boolean {
  return a * d < c * b;
}

export function isWhole([over, under]: Fraction): boolean {
  return over % under === 0n;
}

/** The double nearest to a fraction that is not below zero. */
export function numberFrom([over, under]: Fraction): number {
  if (over === 0n) return 0;
  const shift = DOUBLE_BITS - BigInt(over.toString(2).length - under.toString(2).length);
  const scaled = shift >= 0n ? (over << shift) / under : over / (under << -shift);
  const isExact = shift >= 0n ? (over << shift) % under === 0n : over % (under << -shift) === 0n;
  return Number(isExact ? scaled : scaled | 1n) * 2 ** -Number(shift);
}
