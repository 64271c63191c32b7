/** The drawing as still SVG: one scene through one camera. Used on the screen and on paper alike. */
import { boundsOf, fit, toWindow, type Camera, type Place, type Window } from "./camera";
import { Ground } from "./Ground";
import { Cut } from "./Cut";
import { Edges, Works } from "./Checked";
import { Falls } from "./Falls";
import { Joints } from "./Joints";
import { Live } from "./Live";
import { HandAreas, HandNames } from "./HandAreas";
import { Points } from "./Points";
import { Rails, Spacings } from "./Rails";
import type { Scene } from "./scene";
import { Walls } from "./Walls";

export const MARGIN = 34;

interface SheetProps {
  readonly scene: Scene;
  readonly camera: Camera;
  readonly window: Window;
  readonly name: string;
}

export function Sheet({ scene, camera, window, name }: SheetProps) {
  const project = (place: Place) => toWindow(camera, window, place);
  return (
    <svg class="sheet" width={window.width} height={window.height} viewBox={`0 0 ${window.width} ${window.height}`} role="img" aria-label={scene.spoken}>
      <Ground scene={scene} project={project} clip={`floor-${name}`} />
      <HandAreas scene={scene} project={project} name={name} />
      <Live scene={scene} project={project} name={name} clip={`floor-${name}`} />
      <Walls scene={scene} project={project} scale={camera.scale} />
      <Falls scene={scene} project={project} />
      <Joints scene={scene} project={project} scale={camera.scale} clip={`floor-${name}`} />
      <Spacings scene={scene} project={project} />
      <Rails scene={scene} project={project} />
      <HandNames scene={scene} project={project} />
      <Works scene={scene} project={project} name={name} />
      <Edges scene={scene} project={project} />
      <Points scene={scene} project={project} />
      <Cut scene={scene} project={project} />
    </svg>
  );
}

/** The whole scene at a fixed size, for paper. */
export function PaperSheet({ scene, window, name, margin = MARGIN }: { scene: Scene; window: Window; name: string; margin?: number }) {
  return <Sheet scene={scene} camera={fit(boundsOf(scene.outline), window, margin)} window={window} name={name} />;
}
