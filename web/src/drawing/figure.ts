/** The room's figure for the eye: walls walked as taped, places along walls, inside or out. The engine's word is final. */
import { isInside, toEdge } from "../state/places";
import { boundsOf, type Place } from "./camera";

export { isInside, toEdge, toSegment } from "../state/places";

export interface TapedWall {
  readonly length: number;
  readonly turn: number;
}

export interface Walk {
  /** Where each wall begins, and last where the walk ended. */
  readonly places: readonly Place[];
  /** The way the next wall would run, degrees anticlockwise from +x. */
  readonly heading: number;
}

/** The walk along `walls` from the origin, heading along +x, turning left after each wall. */
export function walkOf(walls: readonly TapedWall[]): Walk {
  const places: Place[] = [[0, 0]];
  let heading = 0;
  for (const { length, turn } of walls) {
    const [x, y] = places.at(-1) ?? [0, 0];
    const angle = (heading * Math.PI) / 180;
    places.push([x + length * Math.cos(angle), y + length * Math.sin(angle)]);
    heading += turn;
  }
  return { places, heading };
}

/** How far the walk's end lies from its beginning, mm. */
export function misclosureOf({ places }: Walk): number {
  const [x, y] = places.at(-1) ?? [0, 0];
  return Math.hypot(x, y);
}

/** The walk closed by spreading the misclosure in proportion to wall length, as the engine does it. */
export function closedFigure(walls: readonly TapedWall[]): readonly Place[] {
  const { places } = walkOf(walls);
  const [dx, dy] = places.at(-1) ?? [0, 0];
  const around = walls.reduce((sum, wall) => sum + wall.length, 0);
  let walked = 0;
  return walls.map((wall, index) => {
    const share = around === 0 ? 0 : walked / around;
    const [x, y] = places[index] ?? [0, 0];
    walked += wall.length;
    return [x - dx * share, y - dy * share] as const;
  });
}

export function rectangle(across: number, up: number): readonly TapedWall[] {
  return [across, up, across, up].map((length) => ({ length, turn: 90 }));
}

/** Twice the signed area: positive where the corners run anticlockwise. */
export function twiceArea(figure: readonly Place[]): number {
  return figure.reduce((sum, [x, y], index) => {
    const [nx, ny] = figure[(index + 1) % figure.length] ?? [x, y];
    return sum + x * ny - nx * y;
  }, 0);
}

export function isOnFloor(figure: readonly Place[], cutouts: readonly (readonly Place[])[], place: Place): boolean {
  return isInside(figure, place) && !cutouts.some((cutout) => isInside(cutout, place));
}

/** Whether all corners of a polygon lie within a figure or on its edge, to the mm that a tape tells. */
export function areWithin(figure: readonly Place[], corners: readonly Place[]): boolean {
  return corners.every((corner) => isInside(figure, corner) || toEdge(figure, corner) <= 1);
}

/** A wall's two ends; the last wall runs back to the first corner. */
export function wallAt(figure: readonly Place[], wall: number): readonly [Place, Place] | null {
  const from = figure[wall];
  const to = figure[(wall + 1) % figure.length];
  return from && to ? [from, to] : null;
}

/** The place `along` mm from a wall's beginning and `off` mm to the room's side of it (left of the walk). */
export function placeOffWall([from, to]: readonly [Place, Place], along: number, off: number): Place {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [ux, uy] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  return [from[0] + ux * along - uy * off, from[1] + uy * along + ux * off];
}

/** The corners of a rectangle that lies `along` and `off` from a wall's beginning. */
export function rectangleOffWall(wall: readonly [Place, Place], along: number, off: number, size: Place): readonly Place[] {
  const corners: readonly Place[] = [[along, off], [along + size[0], off], [along + size[0], off + size[1]], [along, off + size[1]]];
  return corners.map(([a, o]) => placeOffWall(wall, a, o));
}

const TRIES = 16; // places across and up: near enough to the roomiest for a number to stand there

/** A place well within a polygon, where its name can stand: the one furthest from every edge, of a raster of places. */
export function roomiestPlace(figure: readonly Place[]): Place {
  const { low, high } = boundsOf(figure);
  const across = (low: number, high: number, step: number) => low + ((high - low) * (step + 0.5)) / TRIES;
  const raster = Array.from({ length: TRIES * TRIES }, (_, index): Place => [across(low[0], high[0], index % TRIES), across(low[1], high[1], Math.floor(index / TRIES))]);
  const [first, ...others] = raster.filter((place) => isInside(figure, place)).map((place) => ({ place, far: toEdge(figure, place) }));
  return first ? others.reduce((best, other) => (other.far > best.far ? other : best), first).place : low;
}
