/** Lines of one value over pieces that are linear each, joined end to end so that a figure can be written along them. */
import { clippedAt, type Corner } from "../../drawing/bands";
import type { Place } from "../../drawing/camera";

type Segment = readonly [Place, Place];
const SAME = 100; // places that agree to a hundredth of a millimetre are one

/** Where the pieces have the value `level`; pieces that lie wholly at it draw no line. */
export function isolines(pieces: readonly (readonly Corner[])[], level: number): readonly (readonly Place[])[] {
  return joined(pieces.flatMap((piece) => crossingOf(piece, level)));
}

function crossingOf(piece: readonly Corner[], level: number): readonly Segment[] {
  const values = piece.map(([, , value]) => value);
  if (!(Math.min(...values) < level && Math.max(...values) > level)) return [];
  const at = clippedAt(piece, level, 1).filter(([, , value]) => value === level);
  const [from, to] = [at[0], at.at(-1)];
  return from && to && key(from) !== key(to) ? [[[from[0], from[1]], [to[0], to[1]]]] : [];
}

function key([x, y]: readonly number[]): string {
  return `${Math.round((x ?? 0) * SAME)},${Math.round((y ?? 0) * SAME)}`;
}

/** Segments that share an end become one line, in whatever order they came. */
function joined(segments: readonly Segment[]): readonly (readonly Place[])[] {
  const left = new Set(segments);
  const ends = new Map<string, Segment[]>();
  for (const segment of segments) for (const end of segment) ends.set(key(end), [...(ends.get(key(end)) ?? []), segment]);
  const next = (at: Place): Place | null => {
    const on = ends.get(key(at))?.find((segment) => left.has(segment));
    if (!on) return null;
    left.delete(on);
    return key(on[0]) === key(at) ? on[1] : on[0];
  };
  const lines: (readonly Place[])[] = [];
  for (const segment of segments) {
    if (!left.delete(segment)) continue;
    lines.push([...walked(segment[0], next).reverse(), ...segment, ...walked(segment[1], next)]);
  }
  return lines;
}

function walked(from: Place, next: (at: Place) => Place | null): Place[] {
  const line: Place[] = [];
  for (let at = next(from); at !== null; at = next(at)) line.push(at);
  return line;
}
