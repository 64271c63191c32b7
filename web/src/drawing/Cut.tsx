/** The line of a profile over the drawing: its two ends, and the place that a finger stands on. */
import { pathOf, type Project } from "./Ground";
import type { Scene } from "./scene";

export function Cut({ scene, project }: { scene: Scene; project: Project }) {
  if (!scene.cut) return null;
  const { from, to, at } = scene.cut;
  const line = pathOf([from, to], project, false);
  const isWhole = from[0] !== to[0] || from[1] !== to[1]; // of a line that is being laid one end lies first
  const [[fx, fy], [tx, ty], here] = [project(from), project(to), at && project(at)];
  return (
    <g class="cut">
      <path class="edge" d={line} />
      <path d={line} />
      <g class="end"><circle cx={fx} cy={fy} r={12} /><text x={fx} y={fy}>A</text></g>
      {isWhole && <g class="end"><circle cx={tx} cy={ty} r={12} /><text x={tx} y={ty}>B</text></g>}
      {here && <circle class="here" cx={here[0]} cy={here[1]} r={7} />}
    </g>
  );
}
