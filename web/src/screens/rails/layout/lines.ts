/** The lines of rails as a person moves them: pure geometry in the room's coordinates, mm. The engine's word is final. */
import { distance, type Place } from "../../../drawing/camera";
import { toSegment } from "../../../drawing/figure";
import type { RailLine } from "../../../wire";

export type End = "from" | "to";

/** A rail is never made shorter than this, mm: a thumb must find it again. */
export const SHORTEST = 100;
const ROUND = 100; // parts of a mm that places are kept to

function rounded([x, y]: Place): Place {
  return [Math.round(x * ROUND) / ROUND, Math.round(y * ROUND) / ROUND];
}

/** The way a line runs, length 1; along +x for one of no length. */
export function wayOf({ from, to }: Pick<RailLine, "from" | "to">): Place {
  const long = distance(from, to);
  return long === 0 ? [1, 0] : [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
}

export function wayFromDegrees(degrees: number): Place {
  const angle = (degrees * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle)];
}

/** How far along a line a place lies, from its beginning, and how far off it, positive to the left. */
export function offsetsOf(line: Pick<RailLine, "from" | "to">, [x, y]: Place): { readonly along: number; readonly off: number } {
  const [ux, uy] = wayOf(line);
  const [dx, dy] = [x - line.from[0], y - line.from[1]];
  return { along: dx * ux + dy * uy, off: ux * dy - uy * dx };
}

function placed(line: RailLine, along: number, off: number): Place {
  const [ux, uy] = wayOf(line);
  return [line.from[0] + ux * along - uy * off, line.from[1] + uy * along + ux * off];
}

/** The line moved parallel to itself, to its left by `by`. */
export function movedAcross(line: RailLine, by: number): RailLine {
  const long = distance(line.from, line.to);
  return { ...line, from: rounded(placed(line, 0, by)), to: rounded(placed(line, long, by)) };
}

/** One end moved outwards along the line by `by` (inwards where negative); never past the other end. */
export function lengthened(line: RailLine, end: End, by: number): RailLine {
  const long = distance(line.from, line.to);
  const outwards = Math.max(by, Math.min(0, SHORTEST - long));
  return end === "from" ? { ...line, from: rounded(placed(line, -outwards, 0)) } : { ...line, to: rounded(placed(line, long + outwards, 0)) };
}

/** Whole steps of `step`, the nearest: a thumb is not exact, and the figures stay plain. */
export function inSteps(by: number, step: number): number {
  return Math.round(by / step) * step;
}

/** A, B, ... Z, AA, AB, ... */
export function letters(n: number): string {
  return (n >= 26 ? letters(Math.floor(n / 26) - 1) : "") + String.fromCharCode(65 + (n % 26));
}

/** The first letter that no line has, nor any part of one (A1 is a part of A). */
export function freeName(lines: readonly RailLine[]): string {
  const taken = new Set(lines.flatMap(({ id }) => [id, id.replace(/\d+$/, "")]));
  const names = Array.from({ length: lines.length * 2 + 1 }, (_, n) => letters(n));
  return names.find((name) => !taken.has(name)) ?? letters(taken.size);
}

/** The lines, one of them in another's place. */
export function withLine(lines: readonly RailLine[], line: RailLine): readonly RailLine[] {
  return lines.map((one) => (one.id === line.id ? line : one));
}

export function withoutLine(lines: readonly RailLine[], id: string): readonly RailLine[] {
  return lines.filter((line) => line.id !== id);
}

/** Whether a line can be parted where a place lies beside it: both parts are rails still. */
export function canPart(line: RailLine, along: number): boolean {
  return along >= SHORTEST && distance(line.from, line.to) - along >= SHORTEST;
}

/** One line made two at `along` mm from its beginning: the first keeps its name. As they are where a part would be too short. */
export function partedAt(lines: readonly RailLine[], id: string, along: number): readonly RailLine[] {
  const line = lines.find((one) => one.id === id);
  if (!line || !canPart(line, along)) return lines;
  const here = rounded(placed(line, along, 0));
  const second = { id: freeName(lines), from: here, to: line.to };
  return lines.flatMap((one) => (one === line ? [{ ...line, to: here }, second] : [one]));
}

/** The line within `reach` of a place, the nearest; null where there is none. */
export function lineAt(lines: readonly RailLine[], at: Place, reach: number): RailLine | null {
  const near = lines.map((line) => ({ line, far: toSegment(at, line.from, line.to) })).filter(({ far }) => far <= reach);
  return near.sort((a, b) => a.far - b.far)[0]?.line ?? null;
}
