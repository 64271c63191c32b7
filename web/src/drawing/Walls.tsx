/** Walls, doorways, cutouts and what stands in the floor. */
import type { Place } from "./camera";
import { twiceArea } from "./figure";
import { pathOf, type Project } from "./Ground";
import type { Scene, SceneFixture } from "./scene";

const TEXT_OFF_WALL = 13;

function WallLabels({ scene, project }: { scene: Scene; project: Project }) {
  const places = scene.outline.map(project);
  const outward = scene.isClosed && twiceArea(scene.outline) < 0 ? -1 : 1;
  return (
    <g class="wall-labels">
      {scene.wallLabels.map((text, index) => {
        const from = places[index];
        const to = places[(index + 1) % places.length];
        return text && from && to ? <WallLabel key={index} text={text} from={from} to={to} outward={outward} /> : null;
      })}
    </g>
  );
}

function WallLabel({ text, from, to, outward }: { text: string; from: Place; to: Place; outward: 1 | -1 }) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy);
  if (long < text.length * 6.5) return null;
  const at: Place = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const x = at[0] + ((-dy * outward) / long) * TEXT_OFF_WALL;
  const y = at[1] + ((dx * outward) / long) * TEXT_OFF_WALL;
  const turn = (Math.atan2(dy, dx) * 180) / Math.PI;
  const upright = turn > 90.5 || turn < -89.5 ? turn + 180 : turn;
  return <text class="wall-label" x={x} y={y} transform={`rotate(${upright.toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})`}>{text}</text>;
}

function Fixture({ fixture, project, scale }: { fixture: SceneFixture; project: Project; scale: number }) {
  const [x, y] = project(fixture.at);
  const radius = Math.max(6, fixture.radius * scale);
  return (
    <g class={`fixture ${fixture.kind}`}>
      {fixture.kind === "post" ? <rect x={x - radius} y={y - radius} width={2 * radius} height={2 * radius} /> : <circle cx={x} cy={y} r={radius} />}
      {fixture.kind === "drain" && <path d={`M${x - radius * 0.7} ${y - radius * 0.7}L${x + radius * 0.7} ${y + radius * 0.7}M${x + radius * 0.7} ${y - radius * 0.7}L${x - radius * 0.7} ${y + radius * 0.7}`} />}
      {fixture.kind === "flange" && <circle cx={x} cy={y} r={radius * 0.55} />}
    </g>
  );
}

export function Walls({ scene, project, scale }: { scene: Scene; project: Project; scale: number }) {
  return (
    <g class="walls">
      {scene.cutouts.map((cutout, index) => <path key={index} class="cutout" d={pathOf(cutout, project)} />)}
      <path class={scene.isClosed ? "wall" : "wall open"} d={pathOf(scene.outline, project, scene.isClosed)} />
      {!scene.isClosed && scene.outline.map((place, index) => {
        const [x, y] = project(place);
        return <circle key={index} class={index === scene.outline.length - 1 ? "corner last" : "corner"} cx={x} cy={y} r={index === 0 || index === scene.outline.length - 1 ? 7 : 4} />;
      })}
      {scene.doorways.map((door) => (
        <g key={door.id} class={door.isExit ? "doorway exit" : "doorway"}>
          <path class="gap" d={pathOf([door.from, door.to], project, false)} />
          <path class="sill" d={pathOf([door.from, door.to], project, false)} />
        </g>
      ))}
      {scene.fixtures.map((fixture) => <Fixture key={fixture.id} fixture={fixture} project={project} scale={scale} />)}
      <WallLabels scene={scene} project={project} />
    </g>
  );
}
