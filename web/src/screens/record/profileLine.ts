/** The line along which a record shows the bed: through the thinnest and the thickest place, from wall to wall. */
import { boundsOf, distance, type Place } from "../../drawing/camera";
import type { Plan } from "../../wire";

const APART = 100; // mm: nearer places tell no line

interface Line {
  readonly from: Place;
  readonly to: Place;
}

/** Where both are one place, as under an even bed: along the middle of the longer side. */
export function telling({ outline, bed }: Pick<Plan, "outline" | "bed">): Line {
  const { low, high } = boundsOf(outline.vertices);
  const { min_at: thin, max_at: thick } = bed.thickness;
  const middle: Place = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const isWide = high[0] - low[0] >= high[1] - low[1];
  if (distance(thin, thick) < APART) return isWide ? { from: [low[0], middle[1]], to: [high[0], middle[1]] } : { from: [middle[0], low[1]], to: [middle[0], high[1]] };
  return runOn(thin, thick, low, high);
}

/** The line through two places, from edge to edge of a box that holds both. */
function runOn(from: Place, to: Place, low: Place, high: Place): Line {
  const way: Place = [to[0] - from[0], to[1] - from[1]];
  const reaches = [0, 1].map((axis) => reachOf(from[axis] ?? 0, way[axis] ?? 0, low[axis] ?? 0, high[axis] ?? 0));
  const back = Math.max(...reaches.map(([start]) => start));
  const on = Math.min(...reaches.map(([, end]) => end));
  const at = (share: number): Place => [from[0] + way[0] * share, from[1] + way[1] * share];
  return { from: at(back), to: at(on) };
}

function reachOf(start: number, way: number, low: number, high: number): readonly [number, number] {
  if (way === 0) return [-Infinity, Infinity];
  const [one, other] = [(low - start) / way, (high - start) / way];
  return one < other ? [one, other] : [other, one];
}
