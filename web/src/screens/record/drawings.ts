/** The drawings of a record: the room with its sizes, the subfloor, the thickness of the bed, rails, sections and joints. */
import { boundsOf, type Window } from "../../drawing/camera";
import type { FillKind, Scene, SceneLine } from "../../drawing/scene";
import { setStationsFrom } from "../../state";
import { depthText, heightText } from "../../units";
import { reader, t } from "../../words";
import { offText } from "../common/flatness";
import { baseOf, withFlatness, type FlatLayer } from "../common/flatnessLayers";
import { withLayer } from "../common/layers";
import { placeText, roomScene } from "../common/roomFigure";
import { thicknessPieces } from "../common/topLayers";
import { rowsOf, type Content } from "./content";
import { isolines } from "./isolines";

const MM_STEPS = [0.5, 1, 2, 5, 10, 20, 50, 100];
const INCH_STEPS = [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4].map((inches) => inches * 25.4);
const MOST_LINES = 9;

const SCALE_TEXTS: Readonly<Record<FillKind, (mm: number) => string>> = {
  ground: (mm) => heightText(mm, reader.value), bed: (mm) => depthText(mm, reader.value), doubt: (mm) => depthText(mm, reader.value), flat: offText,
};

/** As wide as it is given, and as high as the room asks for, within what fits a page. */
export function windowFor({ outline }: Scene, width: number, tallest: number): Window {
  const { low, high } = boundsOf(outline);
  const margin = 68; // px for sizes along the walls
  const across = Math.max(high[0] - low[0], 1);
  const height = ((width - margin) * (high[1] - low[1])) / across + margin;
  return { width, height: Math.round(Math.min(Math.max(height, width * 0.3), width * tallest)) };
}

export function outlineScene({ room }: Content): Scene {
  return roomScene(room);
}

export function groundScene(content: Content): Scene {
  const { highest, lowest } = content.plan.surface;
  const spoken = t("record.ground_spoken", { highest: highest.z, at: placeText(highest.at), lowest: lowest.z, low_at: placeText(lowest.at) });
  return { ...withLayer(roomScene(content.room), content.plan, "ground"), spoken };
}

/** The step between lines that are drawn over a range: the least that draws no more than a few. */
export function stepFor(range: number): number {
  const steps = reader.value.units === "imperial" ? INCH_STEPS : MM_STEPS;
  return steps.find((step) => range / step <= MOST_LINES) ?? steps.at(-1) ?? range;
}

function thicknessLines({ plan }: Content): readonly SceneLine[] {
  const { min, max } = plan.bed.thickness;
  const step = stepFor(max - min);
  const pieces = thicknessPieces(plan);
  const first = Math.floor(min / step) + 1;
  const count = Math.max(0, Math.ceil(max / step) - first);
  return Array.from({ length: count }, (_, index) => (first + index) * step).map((level) => ({ label: depthText(level, reader.value), lines: isolines(pieces, level) }));
}

/** Bands of colour with lines over them, each with its thickness: it reads without colour too. */
export function thicknessScene(content: Content): Scene {
  const { min, min_at, max, max_at } = content.plan.bed.thickness;
  const spoken = t("record.thickness_spoken", { min, min_at: placeText(min_at), max, max_at: placeText(max_at) });
  return { ...withLayer(roomScene(content.room), content.plan, "thickness"), contours: thicknessLines(content), spoken };
}

export function railsScene(content: Content): Scene {
  const set = setStationsFrom(rowsOf(content, "station"), content.plan.rails);
  return { ...withLayer(roomScene(content.room), content.plan, "rails", set), spoken: t("record.rails_spoken", { rails: content.plan.rails.length }) };
}

export function sectionsScene(content: Content): Scene {
  return { ...withLayer(roomScene(content.room), content.plan, "sections"), spoken: t("record.sections_spoken", { sections: content.plan.sections.length }) };
}

export function jointsScene(content: Content): Scene {
  return { ...withLayer(roomScene(content.room), content.plan, "joints"), spoken: t("record.joints_spoken", { joints: content.plan.joints.field.length }) };
}

export const FLAT_LAYERS = ["height", "gaps", "work"] as const satisfies readonly FlatLayer[];

/** Whether the layer shows anything beside the walls. */
export function hasFlat(content: Content, layer: FlatLayer): boolean {
  const { points, edges, works } = flatScene(content, layer);
  return points.length + edges.length + works.length > 0;
}

export function flatScene(content: Content, layer: FlatLayer): Scene {
  const flatness = content.plan.flatness;
  const base = flatness && layer === "height" ? baseOf(flatness) : 0;
  const values = { readings: flatness?.readings ?? 0, places: flatness?.work.length ?? 0, mean: offText(base) };
  const spoken = t(base === 0 ? `record.flat_${layer}_spoken` : "record.flat_mean_spoken", values);
  return { ...withFlatness(roomScene(content.room), flatness, layer, rowsOf(content, "gap")), spoken };
}

/** Height and depth of the ends of a scale, as written beside it. */
export function scaleEnds(scene: Scene): { readonly low: string; readonly high: string } | null {
  const [first, last] = [scene.fill?.bands[0], scene.fill?.bands.at(-1)];
  if (!scene.fill || !first || !last) return null;
  const text = SCALE_TEXTS[scene.fill.kind];
  return { low: text(first.low), high: text(last.high) };
}
