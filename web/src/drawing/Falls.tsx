/** How the top falls: creases where its planes meet, an arrow down each plane with its fall. */
import { pathOf, type Project } from "./Ground";
import { fittingLabels, type Label } from "./labels";
import type { Scene, SceneFall } from "./scene";

const HALF = 17; // px of an arrow to each side of its middle
const HEAD = 7;
const BESIDE = 13; // px from the arrow's middle to its fall

/** The arrow in px: y runs down there. */
function arrowPath([x, y]: readonly [number, number], [dx, dy]: readonly [number, number]): string {
  const [tx, ty] = [x + dx * HALF, y - dy * HALF];
  const side = (turn: 1 | -1) => `${(tx - HEAD * (dx - turn * dy)).toFixed(1)} ${(ty + HEAD * (dy + turn * dx)).toFixed(1)}`;
  return `M${(x - dx * HALF).toFixed(1)} ${(y + dy * HALF).toFixed(1)}L${tx.toFixed(1)} ${ty.toFixed(1)}M${side(1)}L${tx.toFixed(1)} ${ty.toFixed(1)}L${side(-1)}`;
}

const ROOM = 20; // px: the size of a label that takes up as much as an arrow with its fall

/** Room for an arrow with its fall, as if it were one label. */
function labelOf({ at, text }: SceneFall, index: number, project: Project): Label {
  return { id: `${index}`, text: text || "-", at: project(at), size: ROOM, rank: index + 2 };
}

/** The fall stands beside the arrow, on the side where it does not lie along it. */
function besideOf({ at, way }: SceneFall, project: Project): readonly [number, number] {
  const [x, y] = project(at);
  return way === null ? [x, y] : Math.abs(way[0]) > Math.abs(way[1]) ? [x, y - BESIDE] : [x + BESIDE, y];
}

function Fall({ fall, project }: { fall: SceneFall; project: Project }) {
  const path = fall.way && arrowPath(project(fall.at), fall.way);
  const [x, y] = besideOf(fall, project);
  const isRight = fall.way !== null && Math.abs(fall.way[0]) <= Math.abs(fall.way[1]);
  return (
    <g class="fall">
      {path && <path class="edge" d={path} />}
      {path && <path d={path} />}
      <text class={isRight ? "at-right" : ""} x={x} y={y}>{fall.text}</text>
    </g>
  );
}

export function Falls({ scene, project }: { scene: Scene; project: Project }) {
  if (!scene.falls) return null;
  const { creases, falls } = scene.falls;
  const written = fittingLabels(falls.map((fall, index) => labelOf(fall, index, project)));
  return (
    <g class="falls">
      {creases.map((crease, index) => <path key={index} class="crease" d={pathOf(crease, project, false)} />)}
      {falls.map((fall, index) => (written.has(`${index}`) ? <Fall key={index} fall={fall} project={project} /> : null))}
    </g>
  );
}
