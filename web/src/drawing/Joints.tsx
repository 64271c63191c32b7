/** Movement joints: dotted along walls, whole in the floor, dashes and dots where the slab below has one. */
import { floorPath, pathOf, type Project } from "./Ground";
import { fittingLabels, type Label } from "./labels";
import type { Scene, SceneJoints, SceneNote } from "./scene";

const NAME = 11;
const SIZE = 12;
const ROUND = 4; // px outside a fixture
const LEAST_RADIUS = 6; // px a fixture is drawn with at least

function middleOf({ from, to }: SceneJoints["lines"][number], project: Project): readonly [number, number] {
  const [[ax, ay], [bx, by]] = [project(from), project(to)];
  return [(ax + bx) / 2, (ay + by) / 2];
}

/** Sizes of panels where they cover neither one another nor the name of a joint. */
function panelsWritten(panels: readonly SceneNote[], names: readonly (readonly [number, number])[], project: Project): readonly Label[] {
  const labels = panels.map(({ at, text }, index): Label => ({ id: `${index}`, text, at: project(at), size: SIZE, rank: index + 2 }));
  const fitting = fittingLabels(labels, names);
  return labels.filter(({ id }) => fitting.has(id));
}

interface JointsProps {
  readonly scene: Scene;
  readonly project: Project;
  readonly scale: number;
  /** The id of the floor's clip: of the line along a wall only the floor's half is seen. */
  readonly clip: string;
}

export function Joints({ scene, project, scale, clip }: JointsProps) {
  if (!scene.joints) return null;
  const { lines, panels } = scene.joints;
  const names = lines.map((line) => middleOf(line, project));
  return (
    <g class="joints">
      <g clip-path={`url(#${clip})`}><path class="perimeter" d={floorPath(scene, project)} /></g>
      {scene.fixtures.map(({ id, at, radius }) => {
        const [x, y] = project(at);
        return <circle key={id} class="perimeter round" cx={x} cy={y} r={Math.max(LEAST_RADIUS, radius * scale) + ROUND} />;
      })}
      {lines.map(({ id, from, to, kind }) => (
        <g key={id} class={`joint ${kind}`} data-joint={id} data-kind={kind}>
          <path class="edge" d={pathOf([from, to], project, false)} />
          <path d={pathOf([from, to], project, false)} />
        </g>
      ))}
      {panelsWritten(panels, names, project).map(({ id, text, at: [x, y] }) => <text key={id} class="panel-size" x={x} y={y}>{text}</text>)}
      {lines.map(({ id }, index) => {
        const [x, y] = names[index] ?? [0, 0];
        return <g key={id} class="joint-name"><circle cx={x} cy={y} r={NAME} /><text x={x} y={y}>{id.replace(/^J/, "")}</text></g>;
      })}
    </g>
  );
}
