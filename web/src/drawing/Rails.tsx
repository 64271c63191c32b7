/** Rails with their stations and names; the one in hand has two handles, as large as a thumb in a glove. */
import type { Place } from "./camera";
import { pathOf, type Project } from "./Ground";
import { handlesOf } from "./handles";
import { fittingLabels, WIDTH_OF_A_CHARACTER } from "./labels";
import type { Scene, SceneRail, SceneSpacing } from "./scene";

const SIZE = 12;
const NAME_OFF = 17; // px from the rail's first station to its name
const HANDLE = 16; // px, what is seen of a handle

function beyond([x, y]: Place, [tx, ty]: Place): Place {
  const long = Math.hypot(tx - x, ty - y) || 1;
  return [x - ((tx - x) / long) * NAME_OFF, y - ((ty - y) / long) * NAME_OFF];
}

function middleOf([ax, ay]: Place, [bx, by]: Place): Place {
  return [(ax + bx) / 2, (ay + by) / 2];
}

/** What a rail shows beside its line, with how far from each middle it reaches, px: the name, and the stations. */
export function marksOf(rail: SceneRail, project: Project): readonly { readonly on: Place; readonly reach: number }[] {
  const [from, to] = [project(rail.from), project(rail.to)];
  const name = rail.isInHand ? middleOf(from, to) : beyond(from, to);
  return [{ on: name, reach: 10 }, ...rail.stations.map(({ at }) => ({ on: project(at), reach: 5 }))];
}

const IN_HAND = 2; // ranks: the station in hand is written over all, then its rail's, then the others'
const OTHERS = 1000;

function idOf(rail: SceneRail, index: number): string {
  return `${rail.id}:${index}`;
}

/** The stations whose shims can be written, of all rails together: none over another, over a station or over a rail's name. */
export function writtenStations(rails: readonly SceneRail[], project: Project): ReadonlySet<string> {
  const labels = rails.flatMap((rail, nth) => rail.stations.map(({ at, label, state }, index) => {
    const [x, y] = project(at);
    const rank = state === "current" ? 0 : rail.isCurrent ? IN_HAND + index : OTHERS * (nth + 1) + index;
    return { id: idOf(rail, index), text: label, at: [x, y - 15] as const, size: SIZE, rank };
  }));
  return fittingLabels(labels, rails.flatMap((rail) => marksOf(rail, project).map(({ on }) => on)));
}

function Stations({ rail, written, project }: { rail: SceneRail; written: ReadonlySet<string>; project: Project }) {
  return (
    <>
      {rail.stations.map((station, index) => {
        const [sx, sy] = project(station.at);
        return (
          <g key={index} class={`station ${station.state}`}>
            <circle cx={sx} cy={sy} r={station.state === "current" ? 11 : 5} />
            {written.has(idOf(rail, index)) && <text x={sx} y={sy - (station.state === "current" ? 19 : 12)}>{station.label}</text>}
          </g>
        );
      })}
    </>
  );
}

function Handles({ from, to }: { from: Place; to: Place }) {
  return (
    <>
      {handlesOf(from, to, 1).map(([x, y], index) => (
        <g key={index} class="handle" data-handle={index + 1}><circle cx={x} cy={y} r={HANDLE} /><text x={x} y={y}>{index + 1}</text></g>
      ))}
    </>
  );
}

function nameClass({ warns, isInHand }: SceneRail): string {
  return `rail-name${warns ? " warns" : ""}${isInHand ? " in-hand" : ""}`;
}

function Rail({ rail, written, project }: { rail: SceneRail; written: ReadonlySet<string>; project: Project }) {
  const [from, to] = [project(rail.from), project(rail.to)];
  const [x, y] = rail.isInHand ? middleOf(from, to) : beyond(from, to);
  const line = pathOf([rail.from, rail.to], project, false);
  return (
    <g class={rail.isCurrent ? "rail current" : "rail"} data-rail={rail.id}>
      {rail.isInHand && <path class="edge" d={line} />}
      <path d={line} />
      <Stations rail={rail} written={written} project={project} />
      {rail.isInHand && <Handles from={from} to={to} />}
      <g class={nameClass(rail)}>{rail.warns ? <path d={`M${x} ${y - 14}l14 14l-14 14l-14 -14z`} /> : <circle cx={x} cy={y} r={10} />}<text x={x} y={y}>{rail.id}</text></g>
    </g>
  );
}

export function Rails({ scene, project }: { scene: Scene; project: Project }) {
  const ordered = [...scene.rails].sort((a, b) => Number(a.isCurrent) - Number(b.isCurrent));
  const written = writtenStations(scene.rails, project);
  return <g class="rails">{ordered.map((rail) => <Rail key={rail.id} rail={rail} written={written} project={project} />)}</g>;
}

const SPARE = 6; // px between a figure and the rails on both sides

/** Whether the figure fits between two rails, along the line from one to the other. */
function hasRoomBetween(text: string, [ax, ay]: Place, [bx, by]: Place): boolean {
  const [dx, dy] = [Math.abs(bx - ax), Math.abs(by - ay)];
  const gap = Math.hypot(dx, dy);
  return gap > 0 && gap >= SPARE + (dx * text.length * SIZE * WIDTH_OF_A_CHARACTER + dy * SIZE) / gap;
}

/** How far neighbours are apart, where there is room for the figure. */
export function Spacings({ scene, project }: { scene: Scene; project: Project }) {
  const drawn = scene.spacings.map((spacing) => ({ ...spacing, ends: [project(spacing.from), project(spacing.to)] as const }));
  const roomy = drawn.filter(({ text, ends }) => hasRoomBetween(text, ...ends));
  const written = fittingLabels(roomy.map(({ text, ends, isTooWide }, index) => ({ id: `${index}`, text, at: middleOf(...ends), size: SIZE, rank: isTooWide ? 0 : 2 })));
  return <g class="spacings">{roomy.map((spacing, index) => (written.has(`${index}`) ? <Spacing key={index} spacing={spacing} ends={spacing.ends} /> : null))}</g>;
}

/** Where figures of spacing stand, with how far from its middle each reaches, px. */
export function spacingMarks({ spacings }: Pick<Scene, "spacings">, project: Project): ReturnType<typeof marksOf> {
  return spacings.map(({ from, to, text }) => ({ on: middleOf(project(from), project(to)), reach: (text.length * SIZE * WIDTH_OF_A_CHARACTER) / 2 }));
}

function Spacing({ spacing, ends: [from, to] }: { spacing: SceneSpacing; ends: readonly [Place, Place] }) {
  const [x, y] = middleOf(from, to);
  const wide = spacing.text.length * SIZE * WIDTH_OF_A_CHARACTER;
  return (
    <g class={spacing.isTooWide ? "spacing too-wide" : "spacing"}>
      <path d={`M${from[0]} ${from[1]}L${to[0]} ${to[1]}`} />
      <rect x={x - wide / 2} y={y - SIZE / 2 - 2} width={wide} height={SIZE + 3} rx={2} />
      <text x={x} y={y}>{spacing.text}</text>
    </g>
  );
}
