/** A new rail through a place: the free stretch of floor there, from wall to wall, clear of what stands in the floor. */
import { distance, type Place } from "../../../drawing/camera";
import type { RailLine } from "../../../wire";

/** What a rail must keep clear of. */
export interface OpenFloor {
  readonly outline: readonly Place[];
  readonly cutouts: readonly (readonly Place[])[];
  /** Round things in the floor, by what a rail's line keeps from their middle. */
  readonly obstacles: readonly { readonly at: Place; readonly clear: number }[];
  /** What a rail's end keeps from a wall. */
  readonly atEnds: number;
}

const LEAST_RAIL = 300; // mm: what is shorter carries no straightedge; common practice, no source

type Stretch = readonly [start: number, end: number];

/** Where the line through `at` along `way` meets the edges of a figure, as distances along it, in order. */
function meetings(figure: readonly Place[], at: Place, [ux, uy]: Place): readonly number[] {
  return figure.flatMap((corner, index): readonly number[] => {
    const next = figure[(index + 1) % figure.length] ?? corner;
    const [one, other] = [corner, next].map(([x, y]) => ux * (y - at[1]) - uy * (x - at[0])) as [number, number];
    if (one > 0 === other > 0) return [];
    const share = one / (one - other);
    const [x, y] = [corner[0] + (next[0] - corner[0]) * share, corner[1] + (next[1] - corner[1]) * share];
    return [(x - at[0]) * ux + (y - at[1]) * uy];
  });
}

/** The stretch of the line round `at` that is floor, its ends clear of the walls; null where that is none. */
function stretchOf(floor: OpenFloor, at: Place, way: Place): Stretch | null {
  const edges = [floor.outline, ...floor.cutouts].flatMap((figure) => meetings(figure, at, way));
  const before = edges.filter((edge) => edge <= 0);
  const after = edges.filter((edge) => edge > 0);
  if (before.length === 0 || after.length === 0 || before.length % 2 === 0) return null;
  return [Math.max(...before) + floor.atEnds, Math.min(...after) - floor.atEnds];
}

/** The stretch cut short by what stands beside the line; null where the place itself is taken. */
function clearOf(floor: OpenFloor, at: Place, [ux, uy]: Place, whole: Stretch): Stretch | null {
  return floor.obstacles.reduce<Stretch | null>((left, { at: [x, y], clear }) => {
    const [along, off] = [(x - at[0]) * ux + (y - at[1]) * uy, ux * (y - at[1]) - uy * (x - at[0])];
    if (left === null || Math.abs(off) >= clear) return left;
    const half = Math.sqrt(clear ** 2 - off ** 2);
    if (Math.abs(along) < half) return null;
    return along > 0 ? [left[0], Math.min(left[1], along - half)] : [Math.max(left[0], along + half), left[1]];
  }, whole);
}

/** The ends of a rail through `at`, as long as it can lie; null where no rail can. */
export function railThrough(floor: OpenFloor, at: Place, way: Place): Pick<RailLine, "from" | "to"> | null {
  const whole = stretchOf(floor, at, way);
  const free = whole && clearOf(floor, at, way, whole);
  if (!free || free[1] - free[0] < LEAST_RAIL) return null;
  const end = (along: number): Place => [at[0] + way[0] * along, at[1] + way[1] * along];
  const [from, to] = [end(free[0]), end(free[1])];
  return distance(from, to) < LEAST_RAIL ? null : { from, to };
}
