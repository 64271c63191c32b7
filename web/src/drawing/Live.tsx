/**
 * The floor as it stands: every section told by its pattern (empty, dots, lines, crossed lines, full with a check mark),
 * rails set or not, open edges, channels to pack, the way out. Read from standing height, and without colour.
 */
import { boundsOf, type Place } from "./camera";
import { isInside, roomiestPlace } from "./figure";
import { pathOf, type Project } from "./Ground";
import type { LiveState, SceneLive, SceneLiveSection } from "./live";
import type { Scene, SceneDoorway } from "./scene";

const NUMBER = 26; // px: what names a section from standing height
const CHECK = 11;
const ARROW = 26; // px from the doorway out
const HEAD = 9;

/** The patterns of one drawing; `name` keeps them apart from those of another. */
export function LivePatterns({ name }: { name: string }) {
  return (
    <defs class="live-patterns">
      <pattern id={`${name}-filling`} width="9" height="9" patternUnits="userSpaceOnUse"><rect class="under" width="9" height="9" /><circle cx="4.5" cy="4.5" r="2" /></pattern>
      <pattern id={`${name}-placed`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="under" width="9" height="9" /><path d="M0 0V9" /></pattern>
      <pattern id={`${name}-screeded`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="under" width="9" height="9" /><path d="M0 0V9M0 0H9" /></pattern>
    </defs>
  );
}

/** What fills a section of that state; waiting and packed are plain and come from the style sheet. */
export function liveFill(state: LiveState, name: string): string | undefined {
  return state === "waiting" || state === "packed" ? undefined : `url(#${name}-${state})`;
}

function checkAt([x, y]: Place): string {
  return `M${x - CHECK} ${y}l${CHECK * 0.7} ${CHECK * 0.7}l${CHECK * 1.3} ${-CHECK * 1.4}`;
}

const LOW = 2 * NUMBER + 8; // px: a lower section has the check mark beside its number, not below it
const ASIDE = 14;

/** Where the number of a packed section stands and where its check mark, seen from the middle. */
function packedAt(polygon: readonly Place[], project: Project): { readonly number: Place; readonly check: Place } {
  const { low, high } = boundsOf(polygon.map(project));
  return high[1] - low[1] < LOW ? { number: [-ASIDE, 0], check: [ASIDE, 0] } : { number: [0, -12], check: [0, 12] };
}

function Section({ section, project, name }: { section: SceneLiveSection; project: Project; name: string }) {
  const [x, y] = project(roomiestPlace(section.polygon));
  const { state } = section;
  const { number, check } = state === "packed" ? packedAt(section.polygon, project) : { number: [0, 0] as const, check: null };
  const fill = liveFill(state, name);
  return (
    <g class={`live-section ${state}${section.isTrapped ? " trapped" : ""}`} data-section={section.id} data-state={state}>
      <path d={pathOf(section.polygon, project)} {...(fill === undefined ? {} : { style: { fill } })} />
      <text x={x + number[0]} y={y + number[1]} style={{ fontSize: `${NUMBER}px` }}>{section.label}</text>
      {check && <path class="check" d={checkAt([x + check[0], y + check[1]])} />}
      {section.isTrapped && <path class="warning" d={`M${x + 20} ${y - 9}l9 16h-18z`} />}
    </g>
  );
}

/** An arrow through the doorway, away from the floor. */
function arrowOut({ from, to }: SceneDoorway, outline: readonly Place[], project: Project): string {
  const middle: Place = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const side: Place = [-(to[1] - from[1]) / long, (to[0] - from[0]) / long];
  const turn = isInside(outline, [middle[0] + side[0], middle[1] + side[1]]) ? -1 : 1;
  const [[x, y], [dx, dy]] = [project(middle), [side[0] * turn, -side[1] * turn]];
  const [bx, by, tx, ty] = [x - dx * ARROW, y - dy * ARROW, x + dx * 10, y + dy * 10];
  const head = (way: 1 | -1) => `M${tx - HEAD * (dx - way * dy)} ${ty - HEAD * (dy + way * dx)}L${tx} ${ty}`;
  return `M${bx} ${by}L${tx} ${ty}${head(1)}${head(-1)}`;
}

function WayOut({ scene, project }: { scene: Scene; project: Project }) {
  const exits = scene.doorways.filter(({ isExit }) => isExit);
  return <g class="live-way-out">{exits.map((door) => <path key={door.id} d={arrowOut(door, scene.outline, project)} />)}</g>;
}

function Lines({ live, project }: { live: SceneLive; project: Project }) {
  return (
    <>
      {live.rails.map(({ id, from, to, isSet }) => <path key={id} class={isSet ? "live-rail set" : "live-rail"} d={pathOf([from, to], project, false)} />)}
      {live.edges.map(({ id, from, to }) => <path key={id} class="live-edge" d={pathOf([from, to], project, false)} />)}
      {live.channels.map(({ from, to }, index) => <path key={index} class="live-channel" d={pathOf([from, to], project, false)} />)}
    </>
  );
}

/** A drum on its stand. */
export function Mixer({ at: [x, y] }: { at: Place }) {
  return <g class="live-mixer"><rect x={x - 11} y={y - 11} width={22} height={22} rx={4} /><path d={`M${x - 6} ${y - 5}h9l4 4v3h-9l-4 -4zM${x - 3} ${y + 3}v5M${x + 4} ${y + 3}v5`} /></g>;
}

export function Live({ scene, project, name, clip }: { scene: Scene; project: Project; name: string; clip: string }) {
  const { live } = scene;
  if (!live) return null;
  return (
    <g class="live">
      <LivePatterns name={`live-${name}`} />
      <g clip-path={`url(#${clip})`}>{live.sections.map((section) => <Section key={section.id} section={section} project={project} name={`live-${name}`} />)}</g>
      <Lines live={live} project={project} />
      <WayOut scene={scene} project={project} />
      {live.mixer && <Mixer at={project(live.mixer)} />}
    </g>
  );
}
