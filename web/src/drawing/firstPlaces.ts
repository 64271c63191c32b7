/**
 * Where the rod goes before the engine has said where: corners and walls, as near as its foot stands clear of them, and
 * after these a plain grid, so that readings go on whatever the engine does.
 */
import { boundsOf, distance, type Place } from "./camera";
import { isOnFloor, placeOffWall, toEdge, twiceArea, wallAt } from "./figure";

const FROM_WALL = 75; // mm: a rod's foot stands clear of the wall and its debris (common practice, no source)
const LEAST_WALL = 1200; // mm: of a shorter wall the corners tell enough (common practice, no source)
const LEAST_STEP = 400; // mm: closer readings tell hardly more (common practice, no source)
const CELLS = 36; // a grid of about so many cells finds a high spot and can be finished (common practice, no source)
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

/** The lines between `low` and `high` that part it into cells of about `step`. */
function linesBetween(low: number, high: number, step: number): readonly number[] {
  const cells = Math.max(2, Math.round((high - low) / step));
  return Array.from({ length: cells - 1 }, (_, index) => low + ((high - low) * (index + 1)) / cells);
}

/** A plain grid over the floor, clear of walls and cutouts, walked to and fro; rounded to the mm, none without three corners. */
export function gridPlaces(outline: readonly Place[], cutouts: readonly (readonly Place[])[]): readonly Place[] {
  if (outline.length < 3) return [];
  const { low, high } = boundsOf(outline);
  const step = Math.max(LEAST_STEP, Math.sqrt(Math.abs(twiceArea(outline)) / 2 / CELLS));
  const columns = linesBetween(low[0], high[0], step);
  const rows = linesBetween(low[1], high[1], step);
  const places = rows.flatMap((y, row) => (row % 2 === 0 ? columns : [...columns].reverse()).map((x): Place => [Math.round(x), Math.round(y)]));
  return places.filter((place) => isOnFloor(outline, cutouts, place) && [outline, ...cutouts].every((edge) => toEdge(edge, place) >= FROM_WALL));
}
