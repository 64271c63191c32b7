/** Filled bands between contour levels over a surface of triangles, exact for a surface linear in each of them. */
import type { Place } from "./camera";

export type Corner = readonly [x: number, y: number, value: number];

export interface Band {
  readonly low: number;
  readonly high: number;
  readonly polygons: readonly (readonly Place[])[];
}

function crossing(a: Corner, b: Corner, level: number): Corner {
  const share = (level - a[2]) / (b[2] - a[2]);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, level];
}

/** The part of a polygon where the value is at or above `level` (sign 1), or at or below it (sign −1). */
export function clippedAt(polygon: readonly Corner[], level: number, sign: 1 | -1): readonly Corner[] {
  return polygon.flatMap((corner, index) => {
    const next = polygon[(index + 1) % polygon.length] ?? corner;
    const here = sign * (corner[2] - level);
    const there = sign * (next[2] - level);
    const kept = here >= 0 ? [corner] : [];
    return here * there < 0 ? [...kept, crossing(corner, next, level)] : kept;
  });
}

function inBand(triangle: readonly Corner[], low: number, high: number): readonly Place[] | null {
  const part = clippedAt(clippedAt(triangle, low, 1), high, -1);
  return part.length < 3 ? null : part.map(([x, y]) => [x, y] as const);
}

/** `count` equal bands from the least to the greatest value; one band alone where all values agree. */
export function bandsOf(triangles: readonly (readonly Corner[])[], count: number): readonly Band[] {
  const values = triangles.flat().map(([, , value]) => value);
  if (values.length === 0) return [];
  const [least, greatest] = [Math.min(...values), Math.max(...values)];
  if (greatest === least) return [{ low: least, high: least, polygons: triangles.map((t) => t.map(([x, y]) => [x, y] as const)) }];
  return bandsBetween(triangles, least, greatest, count);
}

/** `count` equal bands from one value to another; what lies beyond them is in none. */
export function bandsBetween(triangles: readonly (readonly Corner[])[], least: number, greatest: number, count: number): readonly Band[] {
  const step = (greatest - least) / count;
  return Array.from({ length: count }, (_, index) => {
    const low = least + step * index;
    const high = index === count - 1 ? greatest : low + step;
    return { low, high, polygons: polygonsIn(triangles, low, high) };
  });
}

function polygonsIn(triangles: readonly (readonly Corner[])[], low: number, high: number): readonly (readonly Place[])[] {
  return triangles.map((triangle) => inBand(triangle, low, high)).filter((part) => part !== null);
}
