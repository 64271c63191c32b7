/** The plan's layers on the drawing: heights read, high and low ground, thickness, rails, sections. */
import { bandsOf, type Corner } from "../../drawing/bands";
import type { Scene, SceneHandArea, ScenePoint, SceneRail } from "../../drawing/scene";
import { rowOf, type SetStation } from "../../state";
import type { HandArea, Plan, Rail } from "../../wire";
import { fieldBands } from "../../drawing/field";
import { depthText, heightText, markText } from "../../units";
import { reader } from "../../words";
import { shimText } from "./shims";
import { chipPoints, fallsOf, jointsOf, thicknessPieces } from "./topLayers";

export type Layer = "readings" | "ground" | "thickness" | "falls" | "doubt" | "joints" | "rails" | "sections";
const BANDS = 7;
const NONE_SET: ReadonlyMap<string, SetStation> = new Map();
/** Three places at most are walked to before the figures are looked at again. */
const MOST_NEXT = 3;

function groundTriangles({ surface }: Plan): readonly (readonly Corner[])[] {
  return surface.triangles.map((triangle) => triangle.map((index): Corner => surface.points[index] ?? [0, 0, 0]));
}

/** Heights or thickness as bands of colour, with the least and the greatest value. */
export function fillOf(plan: Plan, layer: "ground" | "thickness"): NonNullable<Scene["fill"]> {
  const isGround = layer === "ground";
  return { kind: isGround ? "ground" : "bed", bands: bandsOf(isGround ? groundTriangles(plan) : thicknessPieces(plan), BANDS) };
}

/** How well the floor is known, as bands of the standard error; nothing until the engine has told it. */
function doubtFill(plan: Plan): Scene["fill"] {
  const told = plan.surface.statistics?.doubts.map(({ at, sigma }) => ({ at, value: sigma })) ?? [];
  return told.length === 0 ? null : { kind: "doubt", bands: fieldBands(plan.outline.vertices, told, BANDS) };
}

function contoursOf(plan: Plan): Scene["contours"] {
  return plan.surface.contours.map(({ z, lines }) => ({ label: heightText(z, reader.value), lines }));
}

/** High spot, low spot, and every reading of the subfloor with its height; those of the bed have a map of their own. */
export function heightPoints(plan: Plan): readonly ScenePoint[] {
  const { highest, lowest } = plan.surface;
  const text = (z: number) => markText(heightText(z, reader.value));
  const suspects = new Set(plan.levels.suspects.map(({ reading }) => reading));
  const read = plan.levels.heights.flatMap(({ reading, at, z }): readonly ScenePoint[] => {
    const kind = reading === highest.reading ? "high" : reading === lowest.reading ? "low" : suspects.has(reading) ? "suspect" : "read";
    return at && z !== null && rowOf("reading", reading)?.fields.stage !== "bed" ? [{ id: reading, at, label: text(z), kind }] : [];
  });
  const estimated = plan.surface.estimated.map((index): ScenePoint => {
    const [x, y, z] = plan.surface.points[index] ?? [0, 0, 0];
    return { id: `estimated-${index}`, at: [x, y], label: text(z), kind: "estimated" };
  });
  return [...read, ...estimated, ...wantedPoints(plan)];
}

/** The next places worth a reading, numbered from the one that tells most. */
function wantedPoints(plan: Plan): readonly ScenePoint[] {
  return plan.levels.next_readings.slice(0, MOST_NEXT).map(({ at }, index) => ({ id: `wanting-${index}`, at, label: `${index + 1}`, kind: "wanting" }));
}

/** Where readings stand, without their figures: beside what is not known, only the places count. */
function doubtPoints(plan: Plan): readonly ScenePoint[] {
  return heightPoints(plan).map((point) => (point.kind === "wanting" ? point : { ...point, label: "", kind: point.kind === "estimated" ? "estimated" : "read" }));
}

/** The thinnest and the thickest place, and every place that breaks a limit. */
export function thicknessPoints(plan: Plan): readonly ScenePoint[] {
  const { thickness } = plan.bed;
  const text = (depth: number) => markText(depthText(depth, reader.value));
  const broken = plan.bed.violations.map(({ kind, at, thickness: depth }, index): ScenePoint => ({
    id: `limit-${index}`, at, label: text(depth), kind: kind === "too_thick" ? "too_thick" : "too_thin",
  }));
  return [
    { id: "thinnest", at: thickness.min_at, label: text(thickness.min), kind: "high" },
    { id: "thickest", at: thickness.max_at, label: text(thickness.max), kind: "low" },
    ...broken,
  ];
}

/** Rails with their stations; `current` and `set` are "railid:stationindex". */
export function sceneRails(rails: readonly Rail[], set: ReadonlyMap<string, SetStation>, current: string | null): readonly SceneRail[] {
  return rails.map((rail) => ({
    id: rail.id,
    from: rail.from,
    to: rail.to,
    isCurrent: current?.startsWith(`${rail.id}:`) === true,
    stations: rail.stations.map((station, index) => {
      const { at } = station;
      const key = `${rail.id}:${index}`;
      return { at, label: markText(shimText(station)), state: key === current ? "current" : set.has(key) ? "set" : "waiting" };
    }),
  }));
}

/** Places left to hand work; `lit` is the one that is looked at. */
export function sceneHandAreas(areas: readonly HandArea[], lit: string | null): readonly SceneHandArea[] {
  return areas.map(({ id, at, polygon, kind }) => ({ id, at, polygon, kind, isLit: id === lit }));
}

/** The room's scene with one layer of its plan laid over it. */
export function withLayer(room: Scene, plan: Plan | null, layer: Layer, set: ReadonlyMap<string, SetStation> = NONE_SET): Scene {
  if (!plan) return room;
  const scene = { ...room, wallLabels: [] };
  if (layer === "readings") return { ...scene, points: heightPoints(plan) };
  if (layer === "ground") return { ...scene, fill: fillOf(plan, "ground"), contours: contoursOf(plan), points: heightPoints(plan) };
  if (layer === "doubt") return { ...scene, fill: doubtFill(plan), points: doubtPoints(plan) };
  if (layer === "thickness") return { ...scene, fill: fillOf(plan, "thickness"), points: [...thicknessPoints(plan), ...chipPoints(plan)] };
  if (layer === "falls") return { ...scene, falls: fallsOf(plan) };
  if (layer === "joints") return { ...scene, joints: jointsOf(plan) };
  if (layer === "rails") return { ...scene, rails: sceneRails(plan.rails, set, null), handAreas: sceneHandAreas(plan.hand_areas, null) };
  return { ...scene, sections: plan.sections.map(({ id, polygon, order }) => ({ id, polygon, label: `${order}` })) };
}
