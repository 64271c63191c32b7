/** The rules that a bed can be held against, and how the company's own limits change. */
import type { GapLimit, Standard } from "../../wire";

export const USUAL: Standard = "ansi_a108_02";

export const STANDARDS = [
  "ansi_a108_02", "bs_8204_sr1", "bs_8204_sr2", "bs_8204_sr3", "din_18202_2", "din_18202_3", "din_18202_4",
  "aci_117_20_15", "aci_117_25_20", "aci_117_35_25", "aci_117_45_35", "aci_117_60_40", "own",
] as const satisfies readonly Standard[];

/** mm: what the engine takes of a company's own limit; what is less or more is a slip of the finger. */
export const OWN_RANGE = { length: { least: 50, most: 30_000 }, gap: { least: 0.1, most: 500 } } as const;

const FIRST: GapLimit = { length: 2000, gap: 3 }; // mm, where nobody has said yet (common practice, no source)

/** mm: the lengths and gaps that the rules' own sentences name, by ANSI A108.02; a straightedge of 10 ft goes with F-numbers too. */
export const NAMED_LENGTHS = { length: 3048, gap: 6.35, small: 304.8, small_gap: 1.5875, edge: 381, large_gap: 3.175, large_small: 609.6 } as const;

export function isOutOfRange(part: keyof GapLimit, value: number): boolean {
  return value < OWN_RANGE[part].least || value > OWN_RANGE[part].most;
}

/** One limit more: half as long as the shortest so far, with half its gap, but no less than the engine takes. */
export function freshLimit(own: readonly GapLimit[]): readonly GapLimit[] {
  const shortest = own.reduce<GapLimit | null>((best, limit) => (best && best.length <= limit.length ? best : limit), null);
  const half = (part: keyof GapLimit, value: number) => Math.max(OWN_RANGE[part].least, value / 2);
  return [...own, shortest ? { length: half("length", shortest.length), gap: half("gap", shortest.gap) } : FIRST];
}

export function changedLimit(own: readonly GapLimit[], index: number, changed: Partial<GapLimit>): readonly GapLimit[] {
  return own.map((limit, at) => (at === index ? { ...limit, ...changed } : limit));
}

export function limitWithout(own: readonly GapLimit[], index: number): readonly GapLimit[] {
  return own.filter((_, at) => at !== index);
}
