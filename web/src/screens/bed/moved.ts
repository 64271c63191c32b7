/** Moving a top up and down as a whole, whatever its kind, by the one height that stands for it. */
import type { Bed, Point3, Top } from "../../wire";

type Facet = Bed["top"][number];

/** Where the walls' line of a falling top lies: its highest corner. */
function highestCorner(facets: readonly Facet[]): number {
  return Math.max(...facets.flatMap(({ a, b, c, polygon }) => polygon.map(([x, y]) => a + b * x + c * y)));
}

/** The height that stands for a top, z; null where none does: least mortar and linear drains find their own. */
export function heightOfTop(top: Top, bed: Bed | null): number | null {
  if (top.kind === "level") return top.height ?? bed?.top[0]?.a ?? null;
  if (top.kind === "plane") return top.through[0]?.[2] ?? null;
  if (top.kind === "two_levels") return top.left;
  if (top.kind === "to_drain") return top.perimeter ?? (bed && bed.top.length > 0 ? highestCorner(bed.top) : null);
  return null;
}

/** The same top with that height brought from `from` to `to`; null for tops that find their own. */
export function movedTop(top: Top, from: number, to: number): Top | null {
  const by = to - from;
  if (top.kind === "level") return { ...top, height: to };
  if (top.kind === "plane") return { ...top, through: top.through.map(([x, y, z]): Point3 => [x, y, z + by]) };
  if (top.kind === "two_levels") return { ...top, left: top.left + by, right: top.right + by };
  return top.kind === "to_drain" ? { ...top, perimeter: to } : null;
}

/** The same top left to find its lowest height; null where it has none of its own. */
export function lowestTop(top: Top): Top | null {
  if (top.kind === "level") return { ...top, height: null };
  return top.kind === "to_drain" ? { ...top, perimeter: null } : null;
}

/** True where a top stands at a height that somebody gave it. */
export function isGiven(top: Top): boolean {
  if (top.kind === "level") return top.height !== null;
  return top.kind !== "to_drain" || (top.perimeter ?? null) !== null;
}
