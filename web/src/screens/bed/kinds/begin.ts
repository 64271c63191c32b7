/** How each kind of top begins when somebody chooses it: something that can be seen at once, and then changed. */
import type { Place } from "../../../drawing/camera";
import type { Held, Line, Point3, Top } from "../../../wire";
import { cornersOf, type RoomFields } from "../../common/roomFigure";

export type TopKind = Top["kind"];
export const TOP_KINDS: readonly TopKind[] = ["level", "least_mortar", "to_drain", "two_levels", "plane"];

/** 1/4 in in a foot, the least published for a shower floor. */
const SHOWER_FALL = 1 / 48;
const RAMP = 304.8; // mm
const THREE = 3;

/** Null where the room has nothing for a top of that kind: a fall needs a drain. */
export function begunTop(kind: TopKind, room: RoomFields, height: number): Top | null {
  if (kind === "level") return { kind, height: null };
  if (kind === "least_mortar") return { kind, holds: meetingHolds(room), largest_fall: null };
  if (kind === "to_drain") return drainTop(room);
  if (kind === "plane") return { kind, through: cornersOf(room.outline).slice(0, THREE).map(([x, y]): Point3 => [x, y, height]) };
  return { kind, line: lineAlongWall(cornersOf(room.outline), 0, halfWay(cornersOf(room.outline), 0)), left: height, right: height, ramp: RAMP };
}

/** Every doorway whose floor beyond is known meets it. */
function meetingHolds(room: RoomFields): readonly Held[] {
  return (room.openings ?? []).filter(({ adjoining_height }) => typeof adjoining_height === "number").map(({ id }) => ({ opening: id }));
}

function drainTop(room: RoomFields): Top | null {
  const drain = (room.fixtures ?? []).find(({ kind }) => kind === "drain");
  return drain ? { kind: "to_drain", drain: drain.id, fall: SHOWER_FALL, perimeter: null } : null;
}

function isAnticlockwise(corners: readonly Place[]): boolean {
  const doubled = corners.reduce((sum, [x, y], n) => {
    const [nextX, nextY] = corners[(n + 1) % corners.length] ?? [x, y];
    return sum + x * nextY - nextX * y;
  }, 0);
  return doubled > 0;
}

interface Wall {
  readonly from: Place;
  readonly to: Place;
  /** Unit vector square to the wall, into the room. */
  readonly inward: Place;
}

function wallOf(corners: readonly Place[], n: number): Wall {
  const from = corners[n] ?? [0, 0];
  const to = corners[(n + 1) % Math.max(1, corners.length)] ?? from;
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const side = isAnticlockwise(corners) ? 1 : -1;
  return { from, to, inward: [(-side * (to[1] - from[1])) / long, (side * (to[0] - from[0])) / long] };
}

/** Half the way from a wall to the corner farthest from it. */
function halfWay(corners: readonly Place[], n: number): number {
  const { from, inward } = wallOf(corners, n);
  return Math.max(0, ...corners.map(([x, y]) => (x - from[0]) * inward[0] + (y - from[1]) * inward[1])) / 2;
}

/** The line along wall `n` at `distance` from it into the room: what lies to its left is the wall's side. */
export function lineAlongWall(corners: readonly Place[], n: number, distance: number): Line {
  const { from, to, inward } = wallOf(corners, n);
  const shift = ([x, y]: Place): Place => [x + inward[0] * distance, y + inward[1] * distance];
  return isAnticlockwise(corners) ? [shift(to), shift(from)] : [shift(from), shift(to)];
}
