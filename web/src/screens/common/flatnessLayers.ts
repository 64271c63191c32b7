/** The finished bed on the drawing: high and low against the designed top, straightedges where they lie, places to work over. */
import { bandsBetween, type Corner } from "../../drawing/bands";
import { distance } from "../../drawing/camera";
import type { Scene, SceneEdge, ScenePoint, SceneWork } from "../../drawing/scene";
import type { Row } from "../../state";
import type { Flatness, Lying, StraightedgeCheck } from "../../wire";
import { markText } from "../../units";
import { depthToDo, gapText, offText, workText } from "./flatness";

const BANDS = 7;
/** mm to either side of the top that the colours reach at least: a true bed is not painted as hills. */
const LEAST_REACH = 1.5;
const MOST_NEXT = 9; // places to read next that carry a number

const SAME_HEIGHT = 0.05; // mm: two that are told alike
const RAISED = 2; // times the rms about its mean: a bed that lies farther from its top on the whole is shown about its mean

/** What the map counts from: the designed top; or the bed's own mean, where it lies so far from the top that nothing else would be seen. */
export function baseOf({ level }: Flatness): number {
  return level && Math.abs(level.mean) > Math.max(LEAST_REACH, RAISED * level.rms) ? level.mean : 0;
}

/** How far to either side of its base the colours reach: as far as the bed is off it anywhere. */
export function reachOf(flatness: Flatness): number {
  const base = baseOf(flatness);
  return Math.max(LEAST_REACH, ...flatness.points.map(([, , z]) => Math.abs(z - base)));
}

export function flatFill(flatness: Flatness): Scene["fill"] {
  const { points, triangles } = flatness;
  const base = baseOf(flatness);
  const cornerAt = (index: number): Corner => {
    const [x, y, z] = points[index] ?? [0, 0, 0];
    return [x, y, z - base];
  };
  const corners = triangles.map((triangle) => triangle.map(cornerAt));
  const reach = reachOf(flatness);
  return triangles.length === 0 ? null : { kind: "flat", bands: bandsBetween(corners, -reach, reach, BANDS) };
}

/** Which of the heights it is, where no other reads the same; else none is singled out. */
function onlyOne(heights: readonly number[], height: number): number {
  const same = heights.filter((z) => Math.abs(z - height) < SAME_HEIGHT);
  return same.length === 1 && heights.length > 1 ? heights.indexOf(height) : -1;
}

/** Every reading that counts by how far the bed is off there, the highest and the lowest place by their signs. */
export function offPoints(flatness: Flatness): readonly ScenePoint[] {
  const points = flatness.points.slice(0, flatness.spots);
  const base = baseOf(flatness);
  const heights = points.map(([, , z]) => z);
  const [high, low] = [onlyOne(heights, Math.max(...heights)), onlyOne(heights, Math.min(...heights))];
  return points.map(([x, y, z], index): ScenePoint => ({
    id: `off-${index}`, at: [x, y], label: markText(offText(z - base)), kind: index === high ? "high" : index === low ? "low" : "read",
  }));
}

/** Where to read next, numbered in order. */
export function nextPoints({ next_readings: next }: Flatness): readonly ScenePoint[] {
  return next.slice(0, MOST_NEXT).map((at, index): ScenePoint => ({ id: `next-${index}`, at, label: `${index + 1}`, kind: "wanting" }));
}

function edgeOf(id: string, kind: "gap" | "hump", lying: Lying | null, limit: number): readonly SceneEdge[] {
  if (!lying) return [];
  return [{ id, kind, from: lying.from, to: lying.to, at: lying.at, label: markText(gapText(lying.gap)), isBeyond: lying.gap > limit }];
}

function edgesOfCheck({ gap, hump, limit }: StraightedgeCheck, index: number): readonly SceneEdge[] {
  return [...edgeOf(`gap-${index}`, "gap", gap, limit), ...edgeOf(`hump-${index}`, "hump", hump, limit)];
}

/** A gap that a wedge showed, where it lay, unless the bed was worked over since; `isBeyond` is the engine's word, false until it has spoken. */
export function wedgeEdges(gaps: readonly Row<"gap">[], flatness: Flatness | null): readonly SceneEdge[] {
  const beyond = new Set(flatness?.gaps.filter(({ verdict }) => verdict === "beyond").map(({ gap }) => gap));
  const stale = new Set(flatness?.stale ?? []);
  return gaps.filter(({ id }) => !stale.has(id)).flatMap(({ id, fields: { from, to, at, gap } }): readonly SceneEdge[] => {
    if (!from || !to || typeof gap !== "number") return [];
    const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] as const;
    return [{ id: `wedge-${id}`, kind: "wedge", from, to, at: at ?? middle, label: markText(gapText(gap)), isBeyond: beyond.has(id) }];
  });
}

/** Where straightedges lie worst, one gap and one hump a limit; where two limits meet at one place, once. */
export function worstEdges({ checks }: Flatness): readonly SceneEdge[] {
  const all = checks.flatMap(edgesOfCheck);
  const isSame = (one: SceneEdge, other: SceneEdge) => one.kind === other.kind && distance(one.from, other.from) < 1 && distance(one.to, other.to) < 1;
  return all.filter((edge, index) => !all.slice(0, index).some((other) => isSame(other, edge)));
}

export function sceneWorks({ work }: Flatness): readonly SceneWork[] {
  return work.map((one) => ({ id: one.id, at: one.at, polygon: one.polygon, label: markText(workText(one)), way: one.way, isDone: one.done_at !== null }));
}

/** What is taken off or put on where each place of the work was read; its deepest carries the name of the work. */
export function workPoints({ work }: Flatness): readonly ScenePoint[] {
  const changes = work.flatMap(({ id, at, changes: all }) => all.filter(([x, y]) => distance([x, y], at) >= 1).map((change) => [id, change] as const));
  return changes.map(([id, [x, y, z]], index): ScenePoint => ({ id: `change-${id}-${index}`, at: [x, y], label: markText(signedToDo(z)), kind: "read" }));
}

function signedToDo(z: number): string {
  return `${z < 0 ? "\u2212" : "+"}${depthToDo(Math.abs(z))}`;
}

export type FlatLayer = "height" | "gaps" | "work";

/** The room's scene with one layer of the check over it. */
export function withFlatness(room: Scene, flatness: Flatness | null, layer: FlatLayer, gaps: readonly Row<"gap">[]): Scene {
  const scene = { ...room, wallLabels: [] };
  if (!flatness) return layer === "gaps" ? { ...scene, edges: wedgeEdges(gaps, null) } : scene;
  if (layer === "height") return { ...scene, fill: flatFill(flatness), points: [...offPoints(flatness), ...nextPoints(flatness)] };
  if (layer === "gaps") return { ...scene, edges: [...worstEdges(flatness), ...wedgeEdges(gaps, flatness)] };
  return { ...scene, points: workPoints(flatness), works: sceneWorks(flatness) };
}
