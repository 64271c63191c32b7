/**
 * Lengths as people type them: the twin of the engine's own reader, for an answer at the first key press. Same forms,
 * same refusals, same exact fractions; both are held to the same vectors. A comma is a decimal point; inches after
 * feet stay below 12 and fractions below 1; a hyphen after a number only joins.
 */
import { fractionFromDecimal, isBelow, isWhole, numberFrom, plus, times, type Fraction } from "./fraction";

export type Units = "imperial" | "metric";
export type Unit = "mm" | "cm" | "m" | "in" | "ft";
export type LengthProblem =
  | "too_long" | "length_empty" | "length_unclear" | "length_two_marks" | "length_needs_unit" | "length_unit"
  | "length_zero_denominator" | "length_improper" | "length_overflow" | "too_large" | "too_small";
export type ReadLength = { readonly mm: number } | { readonly problem: LengthProblem };

const MM_PER_UNIT: Readonly<Record<Unit, Fraction>> = {
  mm: [1n, 1n], cm: [10n, 1n], m: [1000n, 1n], in: [254n, 10n], ft: [3048n, 10n],
};
const NAMES: Readonly<Record<Unit, string>> = {
  mm: "mm millimeter millimeters millimetre millimetres milímetro milímetros milimetro milimetros",
  cm: "cm centimeter centimeters centimetre centimetres centímetro centímetros centimetro centimetros",
  m: "m meter meters metre metres metro metros",
  in: '" in inch inches pulg pulgada pulgadas',
  ft: "' ft foot feet pie pies",
};
const UNIT_OF: ReadonlyMap<string, Unit> = new Map(
  (Object.keys(NAMES) as Unit[]).flatMap((unit) => NAMES[unit].split(" ").map((name) => [name, unit] as const)),
);
const LONGEST_TEXT = 60;
const FARTHEST: Fraction = [1_000_000n, 1n];
const ONE: Fraction = [1n, 1n];

const SAME_SIGNS: readonly (readonly [RegExp, string])[] = [
  [/[′’‘´`ʹʼ]/g, "'"], [/[″”“˝ʺ]/g, '"'], [/[−–—‐‑‒]/g, "-"], [/[⁄∕／]/g, "/"],
];
const VULGAR: Readonly<Record<string, string>> = {
  "¼": "1/4", "½": "1/2", "¾": "3/4", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5",
  "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
};
const PART = new RegExp(
  String.raw`(?:(?<whole>[0-9]+)(?: ?- ?| )(?<top>[0-9]+) ?/ ?(?<bottom>[0-9]+)` +
  String.raw`|(?<onlyTop>[0-9]+) ?/ ?(?<onlyBottom>[0-9]+)` +
  String.raw`|(?<grouped>[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]*)?)` +
  String.raw`|(?<decimal>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+))(?![0-9/.,])` +
  String.raw` ?(?<unit>"|'|\p{L}+\.?)?`,
  "uy",
);
const JOINT = /(?: ?- ?|, | )?/uy;
const MIXED_SIGNS = /[0-9]*[.,][0-9]+[.,][0-9.,]*/;

class Refusal extends Error {
  constructor(readonly problem: LengthProblem) {
    super(problem);
  }
}

interface Part {
  readonly quantity: Fraction;
  readonly unit: Unit;
}

type Groups = Readonly<Record<string, string | undefined>>;

function plain(text: string): string {
  const same = SAME_SIGNS.reduce((all, [signs, sign]) => all.replace(signs, sign), text);
  const spelled = same.replace(/[¼½¾⅐-⅞]/g, (sign) => (VULGAR[sign] === undefined ? sign : ` ${VULGAR[sign]}`));
  return spelled.toLowerCase().replaceAll("''", '"').split(/\s+/u).filter(Boolean).join(" ");
}

function properFraction(top: string, bottom: string): Fraction {
  const part: Fraction = [BigInt(top), BigInt(bottom)];
  if (part[1] === 0n) throw new Refusal("length_zero_denominator");
  if (!isBelow(part, ONE)) throw new Refusal("length_improper");
  return part;
}

function quantityOf({ whole, top, bottom, onlyTop, onlyBottom, grouped, decimal }: Groups): Fraction {
  if (whole !== undefined && top !== undefined && bottom !== undefined) return plus([BigInt(whole), 1n], properFraction(top, bottom));
  if (onlyTop !== undefined && onlyBottom !== undefined) return properFraction(onlyTop, onlyBottom);
  return fractionFromDecimal((grouped ?? decimal ?? "0").replaceAll(" ", "").replace(",", "."));
}

function unitOf(word: string | undefined, before: Unit | null, otherwise: Unit): Unit {
  if (word === undefined && before === null) return otherwise;
  if (word === undefined && before === "ft") return "in";
  if (word === undefined) throw new Refusal("length_unclear");
  const unit = UNIT_OF.get(word.replace(/\.$/, ""));
  if (unit === undefined) throw new Refusal("length_unit");
  return unit;
}

function isImperial(unit: Unit): boolean {
  return unit === "in" || unit === "ft";
}

function partOf(groups: Groups, isLast: boolean, before: Unit | null, otherwise: Unit): Part {
  if (groups["unit"] === undefined && !isLast) throw new Refusal("length_unclear");
  const unit = unitOf(groups["unit"], before, otherwise);
  const isFraction = groups["bottom"] !== undefined || groups["onlyBottom"] !== undefined;
  if (groups["unit"] === undefined && isFraction && !isImperial(unit)) throw new Refusal("length_needs_unit");
  if (groups["grouped"] !== undefined && isImperial(unit)) throw new Refusal("length_unclear");
  return { quantity: quantityOf(groups), unit };
}

function jointEnd(rest: string, place: number): number {
  JOINT.lastIndex = place;
  const end = place + (JOINT.exec(rest)?.[0].length ?? 0);
  if ((end === rest.length && end > place) || rest.startsWith(",", end)) throw new Refusal("length_unclear");
  return end;
}

function partsOf(rest: string, otherwise: Unit): readonly Part[] {
  const parts: Part[] = [];
  let place = 0;
  while (place < rest.length) {
    PART.lastIndex = place;
    const match = PART.exec(rest);
    if (match === null) throw new Refusal(MIXED_SIGNS.test(rest) ? "length_two_marks" : "length_unclear");
    const end = place + match[0].length;
    parts.push(partOf(match.groups ?? {}, end === rest.length, parts.at(-1)?.unit ?? null, otherwise));
    place = jointEnd(rest, end);
  }
  if (parts.length === 0) throw new Refusal("length_unclear");
  return parts;
}

function checkJoin(larger: Part, smaller: Part): void {
  const isOneSystem = isImperial(larger.unit) === isImperial(smaller.unit);
  const isSmaller = isBelow(MM_PER_UNIT[smaller.unit], MM_PER_UNIT[larger.unit]);
  if (!isOneSystem || !isSmaller || !isWhole(larger.quantity)) throw new Refusal("length_unclear");
  const fits = isBelow(times(smaller.quantity, MM_PER_UNIT[smaller.unit]), MM_PER_UNIT[larger.unit]);
  if (!fits) throw new Refusal("length_overflow");
}

function joined(parts: readonly Part[]): Fraction {
  parts.slice(1).forEach((part, index) => checkJoin(parts[index] ?? part, part));
  return parts.reduce<Fraction>((sum, { quantity, unit }) => plus(sum, times(quantity, MM_PER_UNIT[unit])), [0n, 1n]);
}

function exactLength(text: string, otherwise: Unit): number {
  if (Array.from(text).length > LONGEST_TEXT) throw new Refusal("too_long");
  const all = plain(text);
  if (all === "") throw new Refusal("length_empty");
  const isNegative = all.startsWith("-");
  const rest = isNegative ? all.slice(1).trimStart() : all.replace(/^\+\s*/, "");
  const length = joined(partsOf(rest, otherwise));
  if (isBelow(FARTHEST, length)) throw new Refusal(isNegative ? "too_small" : "too_large");
  const mm = numberFrom(length);
  return isNegative && mm !== 0 ? -mm : mm;
}

/** The length in mm that `text` says, a bare number being in `otherwise`. What no one can mean is refused, never guessed. */
export function lengthFromText(text: string, otherwise: Unit): ReadLength {
  try {
    return { mm: exactLength(text, otherwise) };
  } catch (error) {
    if (error instanceof Refusal) return { problem: error.problem };
    throw error;
  }
}

/** What a bare number is in, for a person of these units. */
export function bareUnit(units: Units): Unit {
  return units === "imperial" ? "in" : "mm";
}
