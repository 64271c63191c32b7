/** Places and polygons on the drawing, mm: what lies where. */
export type Place = readonly [number, number];

const SAME_PLACE = 1; // mm within which two places are one: what two phones take from one plan is the same

/** Whether a place lies within a simple polygon; on its edge counts as either. */
export function isInside(figure: readonly Place[], [px, py]: Place): boolean {
  return figure.reduce((inside, [x, y], index) => {
    const [nx, ny] = figure[(index + 1) % figure.length] ?? [x, y];
    const crosses = y > py !== ny > py && px < ((nx - x) * (py - y)) / (ny - y) + x;
    return crosses ? !inside : inside;
  }, false);
}

/** The distance from a place to a stretch between two others, mm. */
export function toSegment([px, py]: Place, [ax, ay]: Place, [bx, by]: Place): number {
  const squared = (bx - ax) ** 2 + (by - ay) ** 2;
  const along = squared === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / squared));
  return Math.hypot(px - ax - along * (bx - ax), py - ay - along * (by - ay));
}

/** The distance from a place to the nearest edge of a polygon, mm. */
export function toEdge(figure: readonly Place[], place: Place): number {
  return Math.min(...figure.map((corner, index) => toSegment(place, corner, figure[(index + 1) % figure.length] ?? corner)));
}

export function isSamePlace([x, y]: Place, [otherX, otherY]: Place): boolean {
  return Math.hypot(x - otherX, y - otherY) <= SAME_PLACE;
}
