/** Where the rod goes in each corner, before the engine has said where else: as near as its foot stands clear of the walls. */
import type { Place } from "./camera";
import { isOnFloor, twiceArea } from "./figure";

const FROM_WALL = 75; // mm: a rod's foot stands clear of the wall and its debris (common practice, no source)
const LEAST_SINE = 0.2; // a straighter corner has no inside to speak of

function unit([ax, ay]: Place, [bx, by]: Place): Place {
  const long = Math.hypot(bx - ax, by - ay) || 1;
  return [(bx - ax) / long, (by - ay) / long];
}

/** The place FROM_WALL inside both walls of a corner, on an anticlockwise figure. */
function insideCorner(figure: readonly Place[], index: number): Place {
  const corner = figure[index] ?? [0, 0];
  const before = unit(figure.at(index - 1) ?? corner, corner);
  const after = unit(corner, figure[(index + 1) % figure.length] ?? corner);
  const sine = before[0] * after[1] - before[1] * after[0];
  if (Math.abs(sine) < LEAST_SINE) return [corner[0] - after[1] * FROM_WALL, corner[1] + after[0] * FROM_WALL];
  const reach = FROM_WALL / sine;
  return [corner[0] + (after[0] - before[0]) * reach, corner[1] + (after[1] - before[1]) * reach];
}

/** One place in each corner that is floor, rounded to the mm, in the order of the walls; none without three corners. */
export function cornerPlaces(outline: readonly Place[], cutouts: readonly (readonly Place[])[]): readonly Place[] {
  if (outline.length < 3) return [];
  const figure = twiceArea(outline) < 0 ? [...outline].reverse() : outline;
  const places = figure.map((_, index) => insideCorner(figure, index).map(Math.round) as [number, number]);
  return places.filter((place) => isOnFloor(figure, cutouts, place));
}
