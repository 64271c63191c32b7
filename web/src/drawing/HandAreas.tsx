/** Places that no pair of rails serves: each kind has a pattern of its own, told apart without colour. */
import { boundsOf, type Place } from "./camera";
import { isInside } from "./figure";
import { pathOf, type Project } from "./Ground";
import { fittingLabels } from "./labels";
import { marksOf, spacingMarks } from "./Rails";
import type { HandKind, Scene, SceneHandArea } from "./scene";

const KINDS: readonly HandKind[] = ["beside_wall", "rail_end", "alcove", "behind_fixture", "doorway", "narrow", "between"];
const SIZE = 12;
const STEP = 8; // px from one line of a pattern to the next

/** One tile of each pattern: lines one way or the other, crossed, dots, lying, standing, waves. */
const TILES: Readonly<Record<HandKind, string>> = {
  beside_wall: "M-2 2L2 -2M0 8L8 0M6 10L10 6",
  rail_end: "M-2 6L2 10M0 0L8 8M6 -2L10 2",
  alcove: "M-2 2L2 -2M0 8L8 0M6 10L10 6M-2 6L2 10M0 0L8 8M6 -2L10 2",
  behind_fixture: "M1.5 2H4.5M5.5 6H8.5M-2.5 6H0.5",
  doorway: "M0 4H8",
  narrow: "M4 0V8",
  between: "M0 6L4 2L8 6",
};

/** The patterns; `name` keeps those of one drawing apart from another's. */
export function Hatches({ name, kinds = KINDS }: { name: string; kinds?: readonly HandKind[] }) {
  return (
    <defs>
      {kinds.map((kind) => (
        <pattern key={kind} id={hatchId(name, kind)} width={STEP} height={STEP} patternUnits="userSpaceOnUse"><path class={`hand-line ${kind}`} d={TILES[kind]} /></pattern>
      ))}
    </defs>
  );
}

function hatchId(name: string, kind: HandKind): string {
  return `hand-${name}-${kind}`;
}

/** A piece of the pattern, for lists. */
export function HandSample({ name, kind }: { name: string; kind: HandKind }) {
  return (
    <svg class="sheet hand-sample" viewBox="0 0 40 40" aria-hidden="true">
      <Hatches name={name} kinds={[kind]} />
      <rect class="hand-area" x={1} y={1} width={38} height={38} style={{ fill: `url(#${hatchId(name, kind)})` }} />
    </svg>
  );
}

const LEAST_SIDE = 13; // px: a narrower place has no room for its name

function isRoomy({ polygon, isLit }: SceneHandArea, project: Project): boolean {
  const { low, high } = boundsOf(polygon.map(project));
  return isLit || Math.min(high[0] - low[0], high[1] - low[1]) >= LEAST_SIDE;
}

const HALF_A_NAME = 9; // px
/** Where a name may go instead of the middle, from there to each end of the place's bounds. */
const ASIDE: readonly number[] = [0.25, -0.25, 0.4, -0.4, 0.6, -0.6, 0.8, -0.8];

/** The middle of the place, or beside it along its longer side where a rail's name or a station is there; null where none is free. */
export function placeForName({ at, polygon }: Pick<SceneHandArea, "at" | "polygon">, marks: ReturnType<typeof marksOf>, project: Project): Place | null {
  const { low, high } = boundsOf(polygon);
  const long = high[0] - low[0] > high[1] - low[1] ? 0 : 1;
  const aside = ASIDE.map((share): Place => {
    const to = share > 0 ? high[long] : low[long];
    const moved = at[long] + (to - at[long]) * Math.abs(share);
    return long === 0 ? [moved, at[1]] : [at[0], moved];
  });
  const inside = [at, ...aside.filter((place) => isInside(polygon, place))].map(project);
  return inside.find(([x, y]) => marks.every(({ on, reach }) => Math.hypot(on[0] - x, on[1] - y) >= reach + HALF_A_NAME)) ?? null;
}

/** Names that have room, the lit one's first, then those of the larger places. */
function namesOf({ handAreas, rails, spacings }: Scene, project: Project): readonly (SceneHandArea & { readonly on: Place })[] {
  const marks = [...rails.flatMap((rail) => marksOf(rail, project)), ...spacingMarks({ spacings }, project)];
  const roomy = handAreas.filter((area) => isRoomy(area, project)).flatMap((area) => {
    const on = placeForName(area, marks, project) ?? (area.isLit ? project(area.at) : null);
    return on ? [{ ...area, on }] : [];
  });
  const fitting = fittingLabels(roomy.map(({ id, on, isLit }, index) => ({ id, text: id, at: on, size: SIZE, rank: isLit ? 0 : index + 2 })));
  return roomy.filter(({ id }) => fitting.has(id));
}

export function HandAreas({ scene, project, name }: { scene: Scene; project: Project; name: string }) {
  if (scene.handAreas.length === 0) return null;
  const kinds = KINDS.filter((kind) => scene.handAreas.some((area) => area.kind === kind));
  return (
    <g class="hand-areas">
      <Hatches name={name} kinds={kinds} />
      {scene.handAreas.map(({ id, polygon, kind, isLit }) => (
        <path key={id} class={isLit ? "hand-area lit" : "hand-area"} data-hand={id} data-kind={kind} d={pathOf(polygon, project)} style={{ fill: `url(#${hatchId(name, kind)})` }} />
      ))}
    </g>
  );
}

/** Their names, over walls and rails: many a place is hardly wider than a line. */
export function HandNames({ scene, project }: { scene: Scene; project: Project }) {
  if (scene.handAreas.length === 0) return null;
  return <g class="hand-names">{namesOf(scene, project).map(({ id, isLit, on: [x, y] }) => <text key={id} class={isLit ? "hand-name lit" : "hand-name"} x={x} y={y}>{id}</text>)}</g>;
}
