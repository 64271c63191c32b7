/** How much of a straight line lies on the floor: a straightedge runs through no wall and over no post. */
import { distance, type Place } from "../../../drawing/camera";
import { isInside, toEdge } from "../../../drawing/figure";
import type { Edge } from "./laid";

/** The walls, and what is cut out of the floor. */
export interface Floor {
  readonly outline: readonly Place[];
  readonly cutouts: readonly (readonly Place[])[];
}

/** From and to along a line from its first end, mm; before that end it is negative. */
export type Span = readonly [number, number];

/** whole: from the first end, as long as asked · moved: as long, along its line · short: the longest that lies there. */
export type Fit = "whole" | "moved" | "short";

export interface Fitted {
  readonly edge: Edge;
  readonly fit: Fit;
}

const AT_A_WALL = 1; // mm: what a tape tells

/** Where along the line it meets a side of the walls or of a cutout; sides along the line have none of their own. */
function meetings({ from, to }: Edge, { outline, cutouts }: Floor): readonly number[] {
  const long = distance(from, to);
  const [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  return [outline, ...cutouts].flatMap((ring) => ring.flatMap(([x, y], index) => {
    const [nx, ny] = ring[(index + 1) % ring.length] ?? [x, y];
    const [sx, sy] = [nx - x, ny - y];
    const turn = ux * sy - uy * sx;
    if (Math.abs(turn) < 1e-9 * Math.hypot(sx, sy)) return [];
    const share = ((x - from[0]) * uy - (y - from[1]) * ux) / turn;
    return share < -1e-9 || share > 1 + 1e-9 ? [] : [((x - from[0]) * sy - (y - from[1]) * sx) / turn];
  }));
}

/** On the floor, or on its edge to the mm that a tape tells. */
export function isOnBed({ outline, cutouts }: Floor, at: Place): boolean {
  const isIn = isInside(outline, at) || toEdge(outline, at) <= AT_A_WALL;
  return isIn && cutouts.every((cutout) => !isInside(cutout, at) || toEdge(cutout, at) <= AT_A_WALL);
}

function placeAt({ from, to }: Edge, along: number): Place {
  const share = along / distance(from, to);
  const at = (index: 0 | 1) => Math.round((from[index] + (to[index] - from[index]) * share) * 10) / 10;
  return [at(0), at(1)];
}

/** The stretches of the line through both ends that lie on the floor, in order. */
function spansOf(edge: Edge, floor: Floor): readonly Span[] {
  const met = [...meetings(edge, floor)].sort((a, b) => a - b);
  const pieces = met.slice(1).map((to, index): Span => [met[index] ?? to, to]).filter(([from, to]) => to - from > 1e-6 && isOnBed(floor, placeAt(edge, (from + to) / 2)));
  return pieces.reduce<readonly Span[]>((spans, [from, to]) => {
    const last = spans.at(-1);
    return last && from - last[1] < 1e-6 ? [...spans.slice(0, -1), [last[0], to]] : [...spans, [from, to]];
  }, []);
}

function overlap([from, to]: Span, long: number): number {
  return Math.min(to, long) - Math.max(from, 0);
}

/** The stretch that holds most of the straightedge; null where none of it lies on the floor. */
export function spanUnder(edge: Edge, floor: Floor): Span | null {
  const long = distance(edge.from, edge.to);
  const best = spansOf(edge, floor).reduce<Span | null>((most, one) => (most && overlap(most, long) >= overlap(one, long) ? most : one), null);
  return best && overlap(best, long) > 0 ? best : null;
}

/** Whether all of it lies on the floor. A room without walls has no outside. */
export function liesInRoom(edge: Edge, floor: Floor): boolean {
  if (floor.outline.length < 3) return true;
  const span = spanUnder(edge, floor);
  return span !== null && span[0] <= AT_A_WALL && span[1] >= distance(edge.from, edge.to) - AT_A_WALL;
}

function between(edge: Edge, from: number, to: number): Edge {
  return { from: placeAt(edge, from), to: placeAt(edge, to) };
}

/** What of it lies on the floor; null where none does. */
export function cutToRoom(edge: Edge, floor: Floor): Edge | null {
  const span = spanUnder(edge, floor);
  return span && between(edge, Math.max(span[0], 0), Math.min(span[1], distance(edge.from, edge.to)));
}

/** As long as a straightedge is, along the same line; where a wall is in the way, moved along it, or the longest that lies there. */
export function asLongAs(edge: Edge, length: number, floor: Floor): Fitted {
  const span = floor.outline.length < 3 ? ([0, length] as const) : spanUnder(edge, floor);
  if (!span) return { edge, fit: "short" };
  const first = Math.max(span[0], 0);
  if (span[1] - first >= length - AT_A_WALL) return { edge: between(edge, first, first + length), fit: first > AT_A_WALL ? "moved" : "whole" };
  if (span[1] - span[0] >= length - AT_A_WALL) return { edge: between(edge, span[1] - length, span[1]), fit: "moved" };
  return { edge: between(edge, span[0], span[1]), fit: "short" };
}

const TURNS = 36; // ways over half a circle: five degrees apart

/** Ways to lay one: along the walls, the longest first, then all round. */
function waysIn({ outline }: Floor): readonly Place[] {
  const walls = outline.map(([x, y], index): Place => { const [nx, ny] = outline[(index + 1) % outline.length] ?? [x, y]; return [nx - x, ny - y]; });
  const long = [...walls].sort((a, b) => Math.hypot(...b) - Math.hypot(...a));
  const round = Array.from({ length: TURNS }, (_, turn): Place => [Math.cos((turn * Math.PI) / TURNS), Math.sin((turn * Math.PI) / TURNS)]);
  return [...long, ...round];
}

/** A straightedge of a length over a place, amid it where there is room: along a wall where it fits, else as it fits best. */
export function laidOver([x, y]: Place, length: number, floor: Floor): Fitted {
  const laid = waysIn(floor).flatMap(([dx, dy]): readonly Fitted[] => {
    const half = length / 2 / (Math.hypot(dx, dy) || 1);
    if (dx === 0 && dy === 0) return [];
    return [asLongAs({ from: [x - dx * half, y - dy * half], to: [x + dx * half, y + dy * half] }, length, floor)];
  });
  const fitting = laid.find(({ fit }) => fit !== "short");
  const longest = laid.reduce<Fitted | null>((best, one) => (best && distance(best.edge.from, best.edge.to) >= distance(one.edge.from, one.edge.to) ? best : one), null);
  return fitting ?? longest ?? { edge: { from: [x, y], to: [x + length, y] }, fit: "whole" };
}
