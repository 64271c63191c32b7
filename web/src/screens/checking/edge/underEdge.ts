/** How the bed under a straightedge is drawn: heights many times taller than long, so that a gap is seen. */
import type { Place, Window } from "../../../drawing/camera";
import type { StraightedgeAnswer } from "../../../wire";

const SIDE = 16; // px free at both ends
const HEAD = 34; // px free above, for the number
const FOOT = 18;
const LEAST_RISE = 2; // mm: a true bed is not drawn as a cliff

export interface EdgeView {
  readonly at: (along: number, z: number) => Place;
}

type Profile = Pick<StraightedgeAnswer, "profile" | "edge" | "length">;

export function edgeView({ profile, edge, length }: Profile, window: Window): EdgeView {
  const heights = [...profile, ...edge].map(([, z]) => z);
  const [low, high] = heights.length === 0 ? [0, 0] : [Math.min(...heights), Math.max(...heights)];
  const rise = Math.max(high - low, LEAST_RISE);
  const across = (window.width - 2 * SIDE) / (length || 1);
  const up = Math.max(window.height - HEAD - FOOT, 1) / rise;
  return { at: (along, z) => [SIDE + along * across, HEAD + (high - z) * up] };
}

export interface Open {
  readonly along: number;
  readonly bed: number;
  readonly edge: number;
  readonly gap: number;
}

/** The height of a line of points at a place along it; its ends' beyond them. */
function heightAt(points: readonly (readonly [number, number])[], along: number): number {
  const after = points.findIndex(([at]) => at >= along);
  const [b, a] = [points[after] ?? points.at(-1), points[after - 1]];
  if (!b) return 0;
  if (!a || after <= 0) return b[1];
  return b[0] === a[0] ? b[1] : a[1] + ((b[1] - a[1]) * (along - a[0])) / (b[0] - a[0]);
}

/** Where it stands open most: at a point of the profile, as the bed is straight between them. Null where it nowhere does. */
export function openMost({ profile, edge }: Pick<Profile, "profile" | "edge">): Open | null {
  const all = profile.map(([along, bed]): Open => {
    const over = heightAt(edge, along);
    return { along, bed, edge: over, gap: over - bed };
  });
  const most = all.reduce<Open | null>((best, one) => (best && best.gap >= one.gap ? best : one), null);
  return most && most.gap > 0 ? most : null;
}
