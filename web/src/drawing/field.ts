/** A value known at scattered places of a floor, told everywhere on it: for shading, between the places and out to the walls. */
import { bandsOf, type Band, type Corner } from "./bands";
import { boundsOf, distance, type Place } from "./camera";

export interface Told {
  readonly at: Place;
  readonly value: number;
}

const CELLS = 28; // along the longer side: finer than a finger, few enough to be drawn within a frame
const NEAREST = 4;
const SHARPNESS = 3; // power of the distance by which a farther place counts less

/** The mean of the nearest places told, each by its nearness; the value itself where one lies just there. */
export function valueAt(told: readonly Told[], place: Place): number {
  const near = told.map(({ at, value }) => ({ far: distance(at, place), value })).sort((a, b) => a.far - b.far).slice(0, NEAREST);
  const [first] = near;
  if (!first || first.far < 1) return first?.value ?? 0;
  const weights = near.map(({ far }) => far ** -SHARPNESS);
  const off = near.reduce((sum, { value }, index) => sum + (value - first.value) * (weights[index] ?? 0), 0);
  return first.value + off / weights.reduce((sum, weight) => sum + weight, 0);
}

/** Bands of the value over the outline's whole extent, a little beyond the walls; the drawing cuts them there. None for nothing told. */
export function fieldBands(outline: readonly Place[], told: readonly Told[], count: number): readonly Band[] {
  return told.length === 0 ? [] : bandsOf(trianglesOver(outline, told), count);
}

function trianglesOver(outline: readonly Place[], told: readonly Told[]): readonly (readonly Corner[])[] {
  const { low, high } = boundsOf(outline);
  const step = Math.max(high[0] - low[0], high[1] - low[1]) / CELLS;
  const [across, up] = [Math.ceil((high[0] - low[0]) / step), Math.ceil((high[1] - low[1]) / step)];
  const corners = Array.from({ length: (across + 1) * (up + 1) }, (_, index): Corner => {
    const place: Place = [low[0] + (index % (across + 1)) * step, low[1] + Math.floor(index / (across + 1)) * step];
    return [...place, valueAt(told, place)];
  });
  const at = (column: number, row: number): Corner => corners[row * (across + 1) + column] ?? [0, 0, 0];
  return Array.from({ length: across * up }, (_, index) => [index % across, Math.floor(index / across)] as const).flatMap(([x, y]) => [
    [at(x, y), at(x + 1, y), at(x + 1, y + 1)], [at(x, y), at(x + 1, y + 1), at(x, y + 1)],
  ]);
}
