/** Movement joints: dotted along walls, whole in the floor, dashes and dots where the slab below has one. */
import { floorPath, pathOf, type Project } from "./Ground";
import { fittingLabels, WIDTH_OF_A_CHARACTER, type Label } from "./labels";
import type { Scene, SceneJoints, ScenePanel } from "./scene";

const NAME = 11;
const SIZE = 12;
const ROUND = 4; // px outside a fixture
const LEAST_RADIUS = 6; // px a fixture is drawn with at least

function middleOf({ from, to }: SceneJoints["lines"][number], project: Project): readonly [number, number] {
  const [[ax, ay], [bx, by]] = [project(from), project(to)];
  return [(ax + bx) / 2, (ay + by) / 2];
}

/** Sizes of panels that have the room for them, where they cover no joint's name. */
function panelsWritten(panels: readonly ScenePanel[], names: readonly Label[], project: Project, scale: number): readonly Label[] {
  const wide = panels.filter(({ text, across }) => text.length * SIZE * WIDTH_OF_A_CHARACTER <= across * scale);
  const labels = wide.map(({ at, text }, index): Label => ({ id: `${index}`, text, at: project(at), size: SIZE, rank: index + 2 }));
  const fitting = fittingLabels([...names, ...labels]);
  return labels.filter(({ id }) => fitting.has(id));
}

function namesOf(lines: SceneJoints["lines"], project: Project): readonly Label[] {
  return lines.map((line) => ({ id: line.id, text: "00", at: middleOf(line, project), size: 1.7 * NAME, rank: 0 }));
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
  const names = namesOf(lines, project);
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
      {panelsWritten(panels, names, project, scale).map(({ id, text, at: [x, y] }) => <text key={id} class="panel-size" x={x} y={y}>{text}</text>)}
      {names.map(({ id, at: [x, y] }) => (
        <g key={id} class="joint-name"><circle cx={x} cy={y} r={NAME} /><text x={x} y={y}>{id.replace(/^J/, "")}</text></g>
      ))}
    </g>
  );
}
