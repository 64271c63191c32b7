/** How far neighbouring rails are apart, told where they lie beside each other. */
import { distance, type Place } from "../../../drawing/camera";
import { offsetsOf, wayOf } from "./lines";

interface Laid {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
}

export interface Spacing {
  readonly rails: readonly [string, string];
  /** A place on each of the two, one square across from the other. */
  readonly from: Place;
  readonly to: Place;
  readonly gap: number;
}

const LEAST_BESIDE = 50; // mm that two rails lie side by side to be neighbours
const SAME_LINE = 1; // mm
const TOLD_AT = 0.3; // of the stretch side by side: the middle is where a place left to hand work has its name

interface Spread {
  readonly rail: Laid;
  readonly off: number;
  readonly start: number;
  readonly end: number;
}

function spreadOf(first: Laid, rail: Laid): Spread {
  const [one, other] = [offsetsOf(first, rail.from), offsetsOf(first, rail.to)];
  return { rail, off: (one.off + other.off) / 2, start: Math.min(one.along, other.along), end: Math.max(one.along, other.along) };
}

/** What is left of a stretch where another one does not lie beside it. */
function uncovered(stretches: readonly (readonly [number, number])[], { start, end }: Spread): readonly (readonly [number, number])[] {
  return stretches.flatMap(([low, high]): readonly (readonly [number, number])[] => {
    if (end <= low || start >= high) return [[low, high]];
    return ([[low, start], [end, high]] as const).filter(([a, b]) => b - a > LEAST_BESIDE);
  });
}

/** The neighbours of a rail to its left, each over the longest stretch that nothing nearer lies beside. */
function neighboursOf(one: Spread, others: readonly Spread[]): readonly { readonly other: Spread; readonly beside: readonly [number, number] }[] {
  const further = others.filter(({ off }) => off > one.off + SAME_LINE).sort((a, b) => a.off - b.off);
  let open: readonly (readonly [number, number])[] = [[one.start, one.end]];
  return further.flatMap((other) => {
    const beside = open.map(([low, high]) => [Math.max(low, other.start), Math.min(high, other.end)] as const).filter(([low, high]) => high - low > LEAST_BESIDE);
    open = uncovered(open, other);
    const longest = [...beside].sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
    return longest ? [{ other, beside: longest }] : [];
  });
}

/** The spacings between neighbours, from one side of the room to the other. Rails run parallel. */
export function spacingsOf(rails: readonly Laid[]): readonly Spacing[] {
  const first = [...rails].sort((a, b) => distance(b.from, b.to) - distance(a.from, a.to))[0];
  if (!first) return [];
  const spread = rails.map((rail) => spreadOf(first, rail));
  const [ux, uy] = wayOf(first);
  const at = (along: number, off: number): Place => [first.from[0] + ux * along - uy * off, first.from[1] + uy * along + ux * off];
  return [...spread].sort((a, b) => a.off - b.off).flatMap((one) => neighboursOf(one, spread).map(({ other, beside: [low, high] }) => {
    const along = low + (high - low) * TOLD_AT;
    return { rails: [one.rail.id, other.rail.id] as const, from: at(along, one.off), to: at(along, other.off), gap: other.off - one.off };
  }));
}

/** The widest of them; null for fewer than two rails side by side. */
export function widestOf(spacings: readonly Spacing[]): Spacing | null {
  return spacings.reduce<Spacing | null>((best, one) => (best && best.gap >= one.gap ? best : one), null);
}
