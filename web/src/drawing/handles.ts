/** Where a rail in hand is taken hold of: its ends by handles that stand off them, the rest anywhere along it. */
import { distance, type Place } from "./camera";
import { toSegment } from "./figure";

export const HANDLE_REACH = 28; // px round a handle, or off the rail: 56 px across, a thumb in a glove
const HANDLE_OFF = 24; // px from the rail's end to the middle of its handle, so that a short rail can be taken between them

export type Hold = "from" | "to" | "body";

/** The middles of the two handles, beyond the ends; `scale` is px to one unit of the places. */
export function handlesOf([fx, fy]: Place, [tx, ty]: Place, scale: number): readonly [Place, Place] {
  const long = Math.hypot(tx - fx, ty - fy) || 1;
  const off = HANDLE_OFF / scale / long;
  const [dx, dy] = [(tx - fx) * off, (ty - fy) * off];
  return [[fx - dx, fy - dy], [tx + dx, ty + dy]];
}

/** What a finger at a place takes hold of: the nearer handle, else the rail itself, else nothing. */
export function holdAt(from: Place, to: Place, at: Place, scale: number): Hold | null {
  const [first, last] = handlesOf(from, to, scale);
  const [toFirst, toLast] = [distance(first, at) * scale, distance(last, at) * scale];
  if (Math.min(toFirst, toLast) <= HANDLE_REACH) return toFirst <= toLast ? "from" : "to";
  return toSegment(at, from, to) * scale <= HANDLE_REACH ? "body" : null;
}
