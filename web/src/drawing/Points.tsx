/** Readings, high and low spots: what stands on top of the drawing. */
import { distance, type Place } from "./camera";
import { contourLabels } from "./contourLabels";
import type { Project } from "./Ground";
import { fittingLabels, type Label } from "./labels";
import type { PointKind, Scene, ScenePoint } from "./scene";

const SIZE = 12;
const RANKS: Readonly<Record<PointKind, number>> = {
  current: 0, raise: 0, let_down: 0, high: 1, low: 1, chip: 1, too_thin: 1, too_thick: 1, suspect: 2, wanting: 3, read: 4, estimated: 5, instrument: 6, skipped: 8, proposed: 9,
};

/** px from a symbol's middle up to its label; a place to read carries its number within. */
const LIFTS: Readonly<Partial<Record<PointKind, number>>> = { current: 24, raise: 24, let_down: 24, wanting: 0, chip: 0 };

function labelOf(point: ScenePoint, project: Project): Label {
  const [x, y] = project(point.at);
  const lift = LIFTS[point.kind] ?? 15;
  return { id: point.id, text: point.label, at: [x, y - lift], size: SIZE, rank: RANKS[point.kind] };
}

function Symbol({ kind, at: [x, y] }: { kind: PointKind; at: Place }) {
  const around = (sides: string) => <path d={sides} />;
  if (kind === "high") return around(`M${x} ${y - 8}l8 14h-16z`);
  if (kind === "low") return around(`M${x} ${y + 8}l8 -14h-16z`);
  if (kind === "current") return <><circle class="ring" cx={x} cy={y} r={16} /><path d={`M${x - 9} ${y}h18M${x} ${y - 9}v18`} /></>;
  if (kind === "skipped") return around(`M${x - 5} ${y - 5}l10 10M${x - 5} ${y + 5}l10 -10`);
  if (kind === "instrument") return around(`M${x} ${y - 9}v6M${x - 7} ${y + 9}l7 -12l7 12M${x - 6} ${y - 9}h12`);
  if (kind === "proposed") return around(`M${x - 5} ${y}h10M${x} ${y - 5}v10`);
  if (kind === "too_thin") return <><rect x={x - 7} y={y - 7} width={14} height={14} transform={`rotate(45 ${x} ${y})`} /><path class="sign" d={`M${x - 5} ${y}h10`} /></>;
  if (kind === "too_thick") return <><rect x={x - 8} y={y - 8} width={16} height={16} /><path class="sign" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} /></>;
  if (kind === "chip") return around(`M${x - 5} ${y - 9}h10l5 9l-5 9h-10l-5 -9z`);
  if (kind === "raise") return around(`M${x} ${y - 14}l9 12h-5v14h-8v-14h-5z`);
  if (kind === "let_down") return around(`M${x} ${y + 14}l9 -12h-5v-14h-8v14h-5z`);
  if (kind === "wanting") return <circle cx={x} cy={y} r={11} />;
  if (kind === "suspect") return <><circle cx={x} cy={y} r={9} /><path d={`M${x} ${y - 5}v6M${x} ${y + 4}v1`} /></>;
  return <circle cx={x} cy={y} r={5} />;
}

function Spot({ point, project, written }: { point: ScenePoint; project: Project; written: boolean }) {
  const at = project(point.at);
  const label = labelOf(point, project);
  return (
    <g class={`spot ${point.kind}`} data-point={point.id}>
      <Symbol kind={point.kind} at={at} />
      {written && <text x={label.at[0]} y={label.at[1]}>{point.label}</text>}
    </g>
  );
}

function labelsOf(scene: Scene, project: Project): readonly Label[] {
  const labels = scene.points.map((point) => labelOf(point, project));
  const numbered = new Set(scene.points.filter(({ kind }) => kind === "wanting" || kind === "chip").map(({ id }) => id));
  const fitting = fittingLabels(labels, scene.points.map(({ at }) => project(at)));
  return labels.filter(({ id }) => fitting.has(id) || numbered.has(id));
}

interface SpotsProps {
  readonly scene: Scene;
  readonly project: Project;
  /** The labels of points that are written. */
  readonly labels: readonly Label[];
}

/** The heights of the contours, where there is room between everything else. */
function ContourLabels({ scene, project, labels }: SpotsProps) {
  const found = contourLabels(scene, project, labels, scene.points.map(({ at }) => project(at)));
  return (
    <g class="contour-labels">
      {found.map(({ text, at: [x, y], turn }) => <text key={text} x={x} y={y} transform={`rotate(${turn.toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})`}>{text}</text>)}
    </g>
  );
}

const CROWDED = 18; // px between marks of places beyond a limit: nearer ones show when the drawing is zoomed

/** All points, but of places beyond a limit that lie under one another only the worst, which comes first. */
function uncrowded(points: readonly ScenePoint[], project: Project): readonly ScenePoint[] {
  const kept: Place[] = [];
  return points.filter(({ kind, at }) => {
    if (kind !== "too_thin" && kind !== "too_thick") return true;
    const here = project(at);
    const isFree = kept.every((other) => distance(other, here) >= CROWDED);
    if (isFree) kept.push(here);
    return isFree;
  });
}

function Spots({ scene, project, labels }: SpotsProps) {
  const written = new Set(labels.map(({ id }) => id));
  const ordered = [...scene.points].sort((a, b) => RANKS[b.kind] - RANKS[a.kind]);
  return (
    <g class="spots">
      {ordered.map((point) => <Spot key={point.id} point={point} project={project} written={written.has(point.id)} />)}
    </g>
  );
}

/** Everything at a place, over the heights of the contours. */
export function Points({ scene: whole, project }: { scene: Scene; project: Project }) {
  const scene = { ...whole, points: uncrowded(whole.points, project) };
  const labels = labelsOf(scene, project);
  return (
    <>
      <ContourLabels scene={scene} project={project} labels={labels} />
      <Spots scene={scene} project={project} labels={labels} />
    </>
  );
}
