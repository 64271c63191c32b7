/** Where to put the rod: just inside the corners, along the walls, and a grid between, never in a cutout. */
import { boundsOf, distance, type Place } from "./camera";
import { isOnFloor, toEdge, twiceArea } from "./figure";

const FROM_WALL = 75; // a rod's foot stands clear of the wall and its debris (common practice, no source)
const MOST_PLACES = 34; // enough to find a high spot, few enough to finish (common practice, no source)
const LEAST_STEP = 400;
const MOST_STEP = 3000;
const COARSER = 1.08;

function isClear(figure: readonly Place[], cutouts: readonly (readonly Place[])[], place: Place, least: number): boolean {
  return isOnFloor(figure, cutouts, place) && toEdge(figure, place) >= least && cutouts.every((c) => toEdge(c, place) >= least);
}

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
  if (Math.abs(sine) < 0.2) return [corner[0] - after[1] * FROM_WALL, corner[1] + after[0] * FROM_WALL];
  const reach = FROM_WALL / sine;
  return [corner[0] + (after[0] - before[0]) * reach, corner[1] + (after[1] - before[1]) * reach];
}

function alongWall(from: Place, to: Place, step: number): readonly Place[] {
  const count = Math.max(1, Math.round(distance(from, to) / step));
  return Array.from({ length: count - 1 }, (_, index) => {
    const share = (index + 1) / count;
    return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share] as const;
  });
}

function gridOver(figure: readonly Place[], step: number): readonly Place[] {
  const { low, high } = boundsOf(figure);
  const across = Math.max(1, Math.round((high[0] - low[0]) / step));
  const up = Math.max(1, Math.round((high[1] - low[1]) / step));
  const rows = Array.from({ length: up - 1 }, (_, row) => row + 1);
  return rows.flatMap((row) => {
    const columns = Array.from({ length: across - 1 }, (_, column) => column + 1);
    const walked = row % 2 === 0 ? columns.reverse() : columns;
    return walked.map((column): Place => [low[0] + ((high[0] - low[0]) * column) / across, low[1] + ((high[1] - low[1]) * row) / up]);
  });
}

function spread(kept: readonly Place[], more: readonly Place[], least: number): readonly Place[] {
  return more.reduce<readonly Place[]>((all, place) => (all.every((other) => distance(other, place) >= least) ? [...all, place] : all), kept);
}

function placesAt(figure: readonly Place[], cutouts: readonly (readonly Place[])[], step: number): readonly Place[] {
  const corners = figure.map((_, index) => insideCorner(figure, index));
  const walls = corners.flatMap((corner, index) => [corner, ...alongWall(corner, corners[(index + 1) % corners.length] ?? corner, step)]);
  const open = (places: readonly Place[]) => places.filter((place) => isClear(figure, cutouts, place, FROM_WALL * 0.6));
  const grid = open(gridOver(figure, step)).filter((place) => toEdge(figure, place) >= step * 0.45);
  return spread(spread([], open(walls), FROM_WALL), grid, step * 0.55);
}

/** The proposed places in the order they are walked, rounded to the mm: the finest pattern that is not too many. */
export function proposedPlaces(outline: readonly Place[], cutouts: readonly (readonly Place[])[]): readonly Place[] {
  if (outline.length < 3) return [];
  const figure = twiceArea(outline) < 0 ? [...outline].reverse() : outline;
  let step = LEAST_STEP;
  let places = placesAt(figure, cutouts, step);
  while (places.length > MOST_PLACES && step < MOST_STEP) {
    step *= COARSER;
    places = placesAt(figure, cutouts, step);
  }
  return places.map(([x, y]) => [Math.round(x), Math.round(y)] as const);
}
