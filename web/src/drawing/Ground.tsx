/** The flat layers: the floor itself, high and low ground or the bed's thickness, contours, sections. */
import type { Place } from "./camera";
import { roomiestPlace } from "./figure";
import type { FillKind, Scene } from "./scene";

/** Bands that carry a pattern too, so that what they say is told without colour: counted from 0. */
export const PATTERNS: Readonly<Partial<Record<FillKind, readonly { readonly bands: readonly number[]; readonly pattern: "hatch" | "dots" }[]>>> = {
  doubt: [{ bands: [5, 6], pattern: "hatch" }],
  flat: [{ bands: [0, 1], pattern: "hatch" }, { bands: [5, 6], pattern: "dots" }],
};

function Patterns({ id }: { id: string }) {
  return (
    <>
      <pattern id={`${id}-hatch`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch-line" d="M0 0V7" /></pattern>
      <pattern id={`${id}-dots`} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><circle class="dot" cx="4.5" cy="4.5" r="1.7" /></pattern>
    </>
  );
}

export type Project = (place: Place) => Place;

export function pathOf(polygon: readonly Place[], project: Project, close = true): string {
  const steps = polygon.map((place, index) => {
    const [x, y] = project(place);
    return `${index === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`;
  });
  return steps.length === 0 ? "" : steps.join("") + (close ? "Z" : "");
}

export function floorPath({ outline, cutouts }: Scene, project: Project): string {
  return [outline, ...cutouts].map((polygon) => pathOf(polygon, project)).join("");
}

function Fill({ scene, project, clip }: { scene: Scene; project: Project; clip: string }) {
  if (!scene.fill) return null;
  const { kind, bands } = scene.fill;
  return (
    <g class={`fill ${kind}`}>
      {bands.map((band, index) => (
        <path
          key={index}
          d={band.polygons.map((polygon) => pathOf(polygon, project)).join("")}
          style={{ fill: `var(--${kind}-${index + 1})`, stroke: `var(--${kind}-${index + 1})` }}
        />
      ))}
      {PATTERNS[kind]?.flatMap(({ bands: patterned, pattern }) => patterned.map((index) => (
        <path key={`${pattern}-${index}`} class="hatched" style={{ fill: `url(#${clip}-${pattern})` }} d={(bands[index]?.polygons ?? []).map((polygon) => pathOf(polygon, project)).join("")} />
      )))}
    </g>
  );
}

/** Each line twice: a light edge under a dark line shows on every colour. */
function Contours({ scene, project }: { scene: Scene; project: Project }) {
  const drawn = scene.contours.map((contour) => contour.lines.map((line) => pathOf(line, project, false)).join(""));
  return (
    <g class="contours">
      {drawn.map((path, index) => <path key={`edge-${index}`} class="edge" d={path} />)}
      {drawn.map((path, index) => <path key={index} d={path} />)}
    </g>
  );
}

function Sections({ scene, project }: { scene: Scene; project: Project }) {
  return (
    <g class="sections">
      {scene.sections.map((section, index) => {
        const [x, y] = project(roomiestPlace(section.polygon));
        return (
          <g key={section.id}>
            <path class={index % 2 === 0 ? "section" : "section odd"} d={pathOf(section.polygon, project)} />
            <text class="section-label" x={x} y={y}>{section.label}</text>
          </g>
        );
      })}
    </g>
  );
}

export function Ground({ scene, project, clip }: { scene: Scene; project: Project; clip: string }) {
  if (!scene.isClosed) return null;
  const floor = floorPath(scene, project);
  return (
    <>
      {scene.fill && PATTERNS[scene.fill.kind] && <Patterns id={clip} />}
      <clipPath id={clip}><path d={floor} clip-rule="evenodd" /></clipPath>
      <path class="floor" d={floor} fill-rule="evenodd" />
      <g clip-path={`url(#${clip})`}>
        <Fill scene={scene} project={project} clip={clip} />
        <Contours scene={scene} project={project} />
        <Sections scene={scene} project={project} />
      </g>
    </>
  );
}
