/** What a check of the finished bed found: straightedges where they lie, and places to rub down (−) or fill up (+). */
import { distance, type Place } from "./camera";
import { pathOf, type Project } from "./Ground";
import { hasRoom, type Label } from "./labels";
import type { Scene, SceneEdge, SceneWork } from "./scene";

const SIZE = 15;
const ROOM = 40; // px: a number on a shorter bar stands off its end
const BESIDE = 17; // px from a bar's middle to its number

/** px where the number stands: beside the bar, on the side that is farther up. */
function labelAt(edge: SceneEdge, project: Project): Place {
  const [[ax, ay], [bx, by], [x, y]] = [project(edge.from), project(edge.to), project(edge.at)];
  const long = Math.hypot(bx - ax, by - ay);
  if (long < ROOM) return [x, y - BESIDE];
  const [ox, oy] = [-(by - ay) / long, (bx - ax) / long];
  const up = oy > 0 || (oy === 0 && ox > 0) ? -1 : 1;
  const wide = BESIDE + Math.abs(ox) * edge.label.length * 3.5;
  return [x + ox * up * wide, y + oy * up * wide];
}

/** The numbers that fit, those beyond a limit first. */
function written(edges: readonly SceneEdge[], project: Project): readonly Label[] {
  const labels = edges.map((edge, index): Label => ({ id: edge.id, text: edge.label, at: labelAt(edge, project), size: SIZE, rank: (edge.isBeyond ? 0 : 100) + index }));
  return [...labels].sort((a, b) => a.rank - b.rank).reduce<readonly Label[]>((kept, label) => (hasRoom({ ...label, rank: 0 }, kept, []) ? [...kept, label] : kept), []);
}

function Mark({ edge, project }: { edge: SceneEdge; project: Project }) {
  const [x, y] = project(edge.at);
  if (edge.kind === "hump") return <path class="mark" d={`M${x - 8} ${y + 5}Q${x} ${y - 13} ${x + 8} ${y + 5}Z`} />;
  if (edge.kind === "wedge") return <path class="mark" d={`M${x - 10} ${y + 5}L${x + 10} ${y + 5}V${y - 6}Z`} />;
  return <circle class="mark" cx={x} cy={y} r={6} />;
}

export function Edges({ scene: { edges }, project }: { scene: Scene; project: Project }) {
  if (edges.length === 0) return null;
  return (
    <g class="edges">
      {edges.map((edge) => (
        <g key={edge.id} class={edge.isBeyond ? `edge-bar beyond ${edge.kind}` : `edge-bar ${edge.kind}`} data-edge={edge.id}>
          <path class="under" d={pathOf([edge.from, edge.to], project, false)} />
          <path class="bar" d={pathOf([edge.from, edge.to], project, false)} />
          <Mark edge={edge} project={project} />
        </g>
      ))}
      {written(edges, project).map(({ id, text, at: [x, y] }) => <text key={id} class="gap-text" x={x} y={y}>{text}</text>)}
    </g>
  );
}

const APART = 34; // px: a name that would lie on another one is left out

function Name({ work, at: [x, y] }: { work: SceneWork; at: Place }) {
  return <text class="work-name" x={x} y={y}>{work.isDone ? `\u2713\u00a0${work.label}` : work.label}</text>;
}

/** Places in order of effect: the first ones have their names wherever two would cover each other. */
export function Works({ scene: { works }, project, name }: { scene: Scene; project: Project; name: string }) {
  if (works.length === 0) return null;
  const named = works.reduce<readonly SceneWork[]>((kept, work) => (kept.some((other) => distance(project(other.at), project(work.at)) < APART) ? kept : [...kept, work]), []);
  return (
    <g class="works">
      <defs>
        <pattern id={`${name}-rub`} width="8" height="8" patternUnits="userSpaceOnUse"><path d="M0 4H8" /></pattern>
        <pattern id={`${name}-fill`} width="10" height="10" patternUnits="userSpaceOnUse"><path d="M5 2V8M2 5H8" /></pattern>
      </defs>
      {works.map((work) => (
        <g key={work.id} class={`work ${work.way}${work.isDone ? " done" : ""}`} data-work={work.id}>
          <path class="area" d={pathOf(work.polygon, project)} />
          <path class="texture" style={{ fill: `url(#${name}-${work.way})` }} d={pathOf(work.polygon, project)} />
        </g>
      ))}
      {named.map((work) => <Name key={work.id} work={work} at={project(work.at)} />)}
    </g>
  );
}
