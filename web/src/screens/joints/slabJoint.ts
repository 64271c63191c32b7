/** A joint of the slab from two taps: a thumb is not exact, so it is made parallel to a wall and reaches the walls near by. */
import type { Place } from "../../drawing/camera";
import { toEdge } from "../../drawing/figure";
import type { Line } from "../../wire";

const NEARLY = 8; // degrees off a wall's direction, or off square to it, that count as none
const NEAR_A_WALL = 400; // mm that a thumb may miss a wall by
const LEAST = 100; // mm: two taps at one place draw nothing

function angleOf([ax, ay]: Place, [bx, by]: Place): number {
  return Math.atan2(by - ay, bx - ax);
}

/** The directions along and square to every wall, the longest first, in radians. */
function waysOf(corners: readonly Place[]): readonly number[] {
  const walls = corners.map((from, index) => [from, corners[(index + 1) % corners.length] ?? from] as const);
  const long = ([from, to]: readonly [Place, Place]) => Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [...walls].sort((a, b) => long(b) - long(a)).flatMap(([from, to]) => [angleOf(from, to), angleOf(from, to) + Math.PI / 2]);
}

/** How far two directions of lines are apart, radians in [0, π/2]. */
function apart(one: number, other: number): number {
  const turn = Math.abs(one - other) % Math.PI;
  return Math.min(turn, Math.PI - turn);
}

/** The second end moved square to the line, so that the line runs the way a wall does. */
function straightened(corners: readonly Place[], from: Place, to: Place): Place {
  const way = waysOf(corners).find((one) => apart(one, angleOf(from, to)) < (NEARLY * Math.PI) / 180);
  if (way === undefined) return to;
  const along = (to[0] - from[0]) * Math.cos(way) + (to[1] - from[1]) * Math.sin(way);
  return [from[0] + along * Math.cos(way), from[1] + along * Math.sin(way)];
}

/** Where the line through both ends meets a wall nearest to `end`; the end itself where none is near. */
function toTheWall(corners: readonly Place[], from: Place, end: Place): Place {
  if (toEdge(corners, end) > NEAR_A_WALL) return end;
  const long = Math.hypot(end[0] - from[0], end[1] - from[1]);
  const [ux, uy] = [(end[0] - from[0]) / long, (end[1] - from[1]) / long];
  const meetings = corners.flatMap(([ax, ay], index): readonly number[] => {
    const [bx, by] = corners[(index + 1) % corners.length] ?? [ax, ay];
    const turn = ux * (by - ay) - uy * (bx - ax);
    if (Math.abs(turn) < 1e-9) return [];
    const along = ((ax - end[0]) * (by - ay) - (ay - end[1]) * (bx - ax)) / turn;
    const share = ((ax - end[0]) * uy - (ay - end[1]) * ux) / turn;
    return share >= 0 && share <= 1 && Math.abs(along) <= NEAR_A_WALL ? [along] : [];
  });
  const nearest = meetings.sort((a, b) => Math.abs(a) - Math.abs(b))[0];
  return nearest === undefined ? end : [end[0] + ux * nearest, end[1] + uy * nearest];
}

function whole([x, y]: Place): Place {
  return [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
}

/** The joint that two taps mean; null where they are one place. */
export function slabJointFrom(corners: readonly Place[], from: Place, to: Place): Line | null {
  if (Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST) return null;
  const straight = straightened(corners, from, to);
  const end = toTheWall(corners, from, straight);
  return [whole(toTheWall(corners, end, from)), whole(end)];
}
