/** Layers of what is decided: movement joints, how the top falls, high spots to chip. */
import { clippedAt, type Corner } from "../../drawing/bands";
import { boundsOf, type Place } from "../../drawing/camera";
import { isInside, roomiestPlace, toEdge, twiceArea } from "../../drawing/figure";
import type { SceneFall, SceneFalls, SceneJoints, ScenePoint } from "../../drawing/scene";
import { fallText, feetInches, numberText } from "../../units";
import type { Facet, Plan } from "../../wire";
import { reader, t } from "../../words";

/** The joints with their panels, each by its size. */
export function jointsOf({ joints }: Plan): SceneJoints {
  return {
    lines: joints.field.map(({ id, from, to, kind }) => ({ id, from, to, kind: kind === "slab" ? "slab" : "field" })),
    panels: joints.panels.map(({ polygon, length, width }) => {
      const { low, high } = boundsOf(polygon);
      return { at: middleOf(polygon), text: `${roughText(length)} × ${roughText(width)}`, across: high[0] - low[0] };
    }),
  };
}

/** To the inch or the centimetre: on the drawing a size is looked at, not measured out. */
function roughText(mm: number): string {
  const { units, language } = reader.value;
  return units === "imperial" ? feetInches(mm, 1) : numberText(mm / 1000, 2, language);
}

/** The middle of its extent where that lies well within a polygon, else its roomiest place. */
function middleOf(polygon: readonly Place[]): Place {
  const { low, high } = boundsOf(polygon);
  const middle: Place = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const isRoomy = isInside(polygon, middle) && toEdge(polygon, middle) > Math.min(high[0] - low[0], high[1] - low[1]) / 4;
  return isRoomy ? middle : roomiestPlace(polygon);
}

const LEVEL = 1e-4; // less than 0.1 mm in a metre falls nowhere
const ONE_PLACE = 0.01; // mm

function isSlanted({ b, c }: Facet): boolean {
  return Math.hypot(b, c) > LEVEL;
}

/** What of a polygon lies in a triangle that runs anticlockwise. */
function partWithin(polygon: readonly Place[], triangle: readonly Place[]): readonly Place[] {
  return triangle.reduce<readonly Place[]>((part, [ax, ay], index) => {
    const [bx, by] = triangle[(index + 1) % triangle.length] ?? [ax, ay];
    const offs = part.map(([x, y]): Corner => [x, y, (bx - ax) * (y - ay) - (by - ay) * (x - ax)]);
    return clippedAt(offs, 0, 1).map(([x, y]) => [x, y] as const);
  }, polygon);
}

function doMeet(one: readonly Place[], other: readonly Place[]): boolean {
  const [a, b] = [boundsOf(one), boundsOf(other)];
  return a.low[0] <= b.high[0] && b.low[0] <= a.high[0] && a.low[1] <= b.high[1] && b.low[1] <= a.high[1];
}

/** The thickness over one triangle of the floor, in a piece for each plane of the top above it. */
function thicknessOver(corners: readonly Corner[], facets: readonly Facet[]): readonly (readonly Corner[])[] {
  const places = corners.map(([x, y]): Place => [x, y]);
  const floor = planeOf(corners);
  if (floor === null) return [];
  return facets.filter(({ polygon }) => doMeet(polygon, places)).map((facet) => (
    partWithin(facet.polygon, places).map(([x, y]): Corner => [x, y, facet.a + facet.b * x + facet.c * y - floor(x, y)])
  )).filter((piece) => piece.length > 2);
}

function planeOf([p, q, r]: readonly Corner[]): ((x: number, y: number) => number) | null {
  if (!p || !q || !r) return null;
  const [ux, uy, uz, vx, vy, vz] = [q[0] - p[0], q[1] - p[1], q[2] - p[2], r[0] - p[0], r[1] - p[1], r[2] - p[2]];
  const turn = ux * vy - uy * vx;
  if (turn === 0) return null;
  const [b, c] = [(uz * vy - uy * vz) / turn, (ux * vz - uz * vx) / turn];
  return (x, y) => p[2] + b * (x - p[0]) + c * (y - p[1]);
}

/** The bed's thickness in pieces over which it is linear. */
export function thicknessPieces({ surface, bed }: Plan): readonly (readonly Corner[])[] {
  return surface.triangles.flatMap((triangle) => thicknessOver(triangle.map((index): Corner => surface.points[index] ?? [0, 0, 0]), bed.top));
}

/** Whether there is a fall to show: a level top has none. */
export function hasFalls(plan: Plan | null): boolean {
  return plan?.bed.top.some(isSlanted) === true;
}

function fallOf(facet: Facet): SceneFall {
  const { b, c, polygon } = facet;
  const fall = Math.hypot(b, c);
  const at = middleOf(polygon);
  if (!isSlanted(facet)) return { at, way: null, text: t("falls.level") };
  return { at, way: [-b / fall, -c / fall], text: fallText(fall, reader.value) };
}

function edgesOf({ polygon }: Facet): readonly (readonly [Place, Place])[] {
  return polygon.map((corner, index) => [corner, polygon[(index + 1) % polygon.length] ?? corner] as const);
}

/** Whether two are parts of one plane. */
function isOneWith(one: Facet, other: Facet): boolean {
  return Math.abs(one.b - other.b) < LEVEL / 10 && Math.abs(one.c - other.c) < LEVEL / 10 && Math.abs(one.a - other.a) < ONE_PLACE;
}

function isSame([x, y]: Place, [u, v]: Place): boolean {
  return Math.hypot(x - u, y - v) < ONE_PLACE;
}

function sizeOf({ polygon }: Facet): number {
  return Math.abs(twiceArea(polygon));
}

/** Facets of less than this share of the top round off a corner: where two of them meet is no crease to be seen. */
const SLIGHT = 0.01;

/** Edges between different planes, each once; where only a part of an edge is shared it is drawn whole. */
function creasesOf(facets: readonly Facet[], outline: readonly Place[]): readonly (readonly [Place, Place])[] {
  const slight = SLIGHT * facets.reduce((sum, facet) => sum + sizeOf(facet), 0);
  const onWall = ([[ax, ay], [bx, by]]: readonly [Place, Place]) => outline.some((corner, index) => isBetween(corner, outline[(index + 1) % outline.length] ?? corner, [(ax + bx) / 2, (ay + by) / 2]));
  return facets.flatMap((facet, place) => edgesOf(facet).filter((edge) => {
    const beside = facets.findIndex((other) => other !== facet && edgesOf(other).some(([start, end]) => isSame(start, edge[1]) && isSame(end, edge[0])));
    const other = facets[beside];
    if (!other) return sizeOf(facet) > slight && !onWall(edge);
    return beside > place && !isOneWith(facet, other) && sizeOf(facet) > slight;
  }));
}

function isBetween([ax, ay]: Place, [bx, by]: Place, [px, py]: Place): boolean {
  const long = Math.hypot(bx - ax, by - ay);
  return Math.abs(Math.hypot(px - ax, py - ay) + Math.hypot(px - bx, py - by) - long) < ONE_PLACE;
}

/** Creases, and an arrow down each plane that falls, the largest first; level ones come last. */
export function fallsOf({ bed, outline }: Plan): SceneFalls {
  const facets = [...bed.top].sort((a, b) => sizeOf(b) - sizeOf(a));
  const [slanted, level] = [facets.filter(isSlanted), facets.filter((facet) => !isSlanted(facet))];
  return { creases: creasesOf(facets, outline.vertices), falls: [...slanted, ...level].map(fallOf) };
}

/** High spots that could be chipped carry the number in their id: `h1` is the highest. */
export function chipNumber(id: string): string {
  return id.replace(/^\D+/, "");
}

export function chipPoints({ bed }: Plan): readonly ScenePoint[] {
  return bed.chipping.map(({ id, at }) => ({ id: `chip-${id}`, at, label: chipNumber(id), kind: "chip" }));
}
