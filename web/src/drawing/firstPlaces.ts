/** Where the rod goes in corners and along walls, before the engine has said where else: as near as its foot stands clear of the walls. */
import { distance, type Place } from "./camera";
import { isOnFloor, placeOffWall, twiceArea, wallAt } from "./figure";

const FROM_WALL = 75; // mm: a rod's foot stands clear of the wall and its debris (common practice, no source)
const LEAST_WALL = 1200; // mm: of a shorter wall the corners tell enough (common practice, no source)
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

/** The middle of a wall, as far off it; none of a short one, whose corners tell as much. */
function besideWall(figure: readonly Place[], index: number): readonly Place[] {
  const wall = wallAt(figure, index);
  const long = wall ? distance(...wall) : 0;
  return wall && long >= LEAST_WALL ? [placeOffWall(wall, long / 2, FROM_WALL)] : [];
}

/**
 * A place in each corner and at the middle of each longer wall, where that is floor: rounded to the mm, in the order of
 * the walls; none without three corners.
 */
export function firstPlaces(outline: readonly Place[], cutouts: readonly (readonly Place[])[]): readonly Place[] {
  if (outline.length < 3) return [];
  const figure = twiceArea(outline) < 0 ? [...outline].reverse() : outline;
  const places = figure.flatMap((_, index) => [insideCorner(figure, index), ...besideWall(figure, index)]);
  const whole = places.map(([x, y]): Place => [Math.round(x), Math.round(y)]);
  return whole.filter((place) => isOnFloor(figure, cutouts, place));
}
