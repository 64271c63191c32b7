/** The drawing under the thumb: fits the room, zooms by pinch, wheel and buttons, opens a point at a tap. */
import { useMemo, useState } from "preact/hooks";
import { t } from "../words";
import { boundsOf, distance, fitBeside, toRoom, toWindow, zoomed, type Camera, type Place, type Window } from "./camera";
import { useGestures, type Grip } from "./gestures";
import type { Scene } from "./scene";
import { MARGIN, Sheet } from "./Sheet";
import { useSize } from "./useSize";

const REACH = 26; // px: a thumb lands this near to what it means
const STEP = 1.5;
const BARE_MARGIN = 24;
const BUTTON = 62; // px: a thumb's width, its border and the gap
const ZOOM_STRIP = BUTTON; // px: the buttons cover no wall, nor the name of a rail that ends there

interface DrawingProps {
  readonly scene: Scene;
  readonly name: string;
  readonly onOpen?: (id: string) => void;
  /** `reach` mm is how near a thumb lands to what it means. */
  readonly onPlace?: (at: Place, reach: number) => void;
  /** What can be opened, where it is not the scene's points. */
  readonly touch?: readonly Touchable[];
  /** Given where one finger draws a line, in the room's own coordinates; two still move the drawing. */
  readonly onStroke?: ((from: Place, to: Place, reach: number) => void) | undefined;
  /** Given where a finger may take hold of something, in the room's own coordinates; `scale` is px to the mm. */
  readonly onGrab?: ((at: Place, scale: number) => Grip | null) | undefined;
  /** px of air round the room; else as much as its labels need. */
  readonly air?: number;
}

interface Touchable {
  readonly id: string;
  readonly at: Place;
}

function nearest(touchable: readonly Touchable[], camera: Camera, window: Window, at: Place): string | null {
  const found = touchable
    .map((point) => ({ id: point.id, far: distance(toWindow(camera, window, point.at), at) }))
    .filter(({ far }) => far <= REACH)
    .sort((a, b) => a.far - b.far)[0];
  return found?.id ?? null;
}

/** Whether the buttons stand on one another: where the strip is at the right, and high enough for them. */
function isStanding(isAtRight: boolean, window: Window, buttons: number): boolean {
  return isAtRight && window.height >= buttons * BUTTON;
}

/** Whether the free strip lies at the right: then the room's middle is left of the window's. */
function isBeside(whole: Camera, window: Window, scene: Scene): boolean {
  const { low, high } = boundsOf(scene.outline);
  return toWindow(whole, window, [(low[0] + high[0]) / 2, 0])[0] < window.width / 2 - 1;
}

/** What is held, told of places in the room: while it is held the camera stays where it is. */
function gripInRoom(grip: Grip | null, camera: Camera, window: Window): Grip | null {
  return grip && {
    onMove: (to) => grip.onMove(toRoom(camera, window, to)),
    onDrop: (at) => grip.onDrop(toRoom(camera, window, at)),
    onLeave: grip.onLeave,
  };
}

export function Drawing({ scene, name, onOpen, onPlace, touch = scene.points, onStroke, onGrab, air }: DrawingProps) {
  const [box, window] = useSize();
  const margin = air ?? (scene.wallLabels.length === 0 ? BARE_MARGIN : MARGIN);
  const whole = useMemo(() => fitBeside(boundsOf(scene.outline), window, margin, ZOOM_STRIP), [scene.outline, window, margin]);
  const [moved, setMoved] = useState<Camera | null>(null);
  const camera = moved ?? whole;
  const tapped = (at: Place) => {
    const id = onOpen ? nearest(touch, camera, window, at) : null;
    if (id !== null) onOpen?.(id);
    else onPlace?.(toRoom(camera, window, at), REACH / camera.scale);
  };
  const drawn = onStroke && ((from: Place, to: Place) => onStroke(toRoom(camera, window, from), toRoom(camera, window, to), REACH / camera.scale));
  const grabbed = onGrab && ((at: Place) => gripInRoom(onGrab(toRoom(camera, window, at), camera.scale), camera, window));
  const gestures = useGestures({ camera, window, onCamera: setMoved, onTap: tapped, onStroke: drawn, onGrab: grabbed });
  const zoom = (factor: number, hold: Place = [window.width / 2, window.height / 2]) => setMoved(zoomed(camera, window, hold, factor));
  return (
    <div class="drawing" ref={box} data-testid="drawing">
      <div class={moved || onStroke || onGrab ? "surface held" : "surface"} {...gestures}>
        <Sheet scene={scene} camera={camera} window={window} name={name} />
      </div>
      <div class={isStanding(isBeside(whole, window, scene), window, moved ? 3 : 2) ? "zoom" : "zoom lying"}>
        <button type="button" class="button icon" aria-label={t("drawing.nearer")} data-testid="zoom-in" onClick={() => zoom(STEP)}>+</button>
        <button type="button" class="button icon" aria-label={t("drawing.farther")} data-testid="zoom-out" onClick={() => zoom(1 / STEP)}>{"\u2212"}</button>
        {moved && <button type="button" class="button icon" aria-label={t("drawing.whole")} data-testid="zoom-fit" onClick={() => setMoved(null)}>{"\u2922"}</button>}
      </div>
    </div>
  );
}
