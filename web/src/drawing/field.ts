/** A value known at scattered places of a floor, told everywhere on it: for shading, between the places and out to the walls. */
import { bandsOf, type Band, type Corner } from "./bands";
import { boundsOf, distance, type Place } from "./camera";
import { twiceArea } from "./figure";

export interface Told {
  readonly at: Place;
  readonly value: number;
}

const CELLS = 28; // along the longer side: finer than a finger, few enough to be drawn within a frame
const REACH = 0.7; // of the spacing: a place told counts about as far as half way to the next one

/** The mean distance from one told place to the next, as if they lay on a grid. */
function spacingOf(outline: readonly Place[], told: readonly Told[]): number {
  return Math.sqrt(Math.abs(twiceArea(outline)) / 2 / told.length);
}

/** The mean of the places told, each by its nearness (a bell of width `reach` mm): always between the least and the greatest. */
export function valueAt(told: readonly Told[], place: Place, reach: number): number {
  const near = told.map(({ at, value }) => ({ far: distance(at, place) ** 2, value }));
  const first = near.reduce((best, one) => (one.far < best.far ? one : best));
  const weights = near.map(({ far }) => Math.exp((first.far - far) / reach ** 2));
  const off = near.reduce((sum, { value }, index) => sum + (value - first.value) * (weights[index] ?? 0), 0);
  return first.value + off / weights.reduce((sum, weight) => sum + weight, 0);
}

/** Bands of the value over the outline's whole extent, a little beyond the walls; the drawing cuts them there. None for nothing told. */
export function fieldBands(outline: readonly Place[], told: readonly Told[], count: number): readonly Band[] {
  return told.length === 0 ? [] : bandsOf(trianglesOver(outline, told), count);
}

function trianglesOver(outline: readonly Place[], told: readonly Told[]): readonly (readonly Corner[])[] {
  const { low, high } = boundsOf(outline);
  const reach = REACH * spacingOf(outline, told);
  const step = Math.max(high[0] - low[0], high[1] - low[1]) / CELLS;
  const [across, up] = [Math.ceil((high[0] - low[0]) / step), Math.ceil((high[1] - low[1]) / step)];
  const corners = Array.from({ length: (across + 1) * (up + 1) }, (_, index): Corner => {
    const place: Place = [low[0] + (index % (across + 1)) * step, low[1] + Math.floor(index / (across + 1)) * step];
    return [...place, valueAt(told, place, reach)];
  });
  const at = (column: number, row: number): Corner => corners[row * (across + 1) + column] ?? [0, 0, 0];
  return Array.from({ length: across * up }, (_, index) => [index % across, Math.floor(index / across)] as const).flatMap(([x, y]) => [
    [at(x, y), at(x + 1, y), at(x + 1, y + 1)], [at(x, y), at(x + 1, y + 1), at(x, y + 1)],
  ]);
}
