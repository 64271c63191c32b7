/** Fingers on the drawing: one drags it, draws a line where one is wanted, or moves what it takes hold of; two pinch, a still one taps. */
import { useRef } from "preact/hooks";
import { distance, dragged, pinched, zoomed, type Camera, type Place, type Window } from "./camera";

const WHEEL_STEP = 1.15;
const STILL = 8; // px a finger may wander and still tap

interface Hand {
  /** The camera as the fingers left it: several moves may come before the screen is drawn again. */
  camera: Camera;
  fingers: Map<number, Place>;
  start: Place | null;
  moved: boolean;
  /** A second finger came: until all are lifted nothing is drawn. */
  pinching: boolean;
  /** What the one finger holds. */
  grip: Grip | null;
}

/** Something on the drawing under a finger: told where the finger is, where it was lifted, or that it let go (a second finger came). */
export interface Grip {
  readonly onMove: (to: Place) => void;
  readonly onDrop: (at: Place) => void;
  readonly onLeave: () => void;
}

interface Listening {
  readonly camera: Camera;
  readonly window: Window;
  readonly onCamera: (camera: Camera) => void;
  readonly onTap: (at: Place) => void;
  /** Given where one finger draws a line instead of dragging: from where it was set down to where it is. */
  readonly onStroke?: ((from: Place, to: Place) => void) | undefined;
  /** Given where a finger may take hold of something: null where there is nothing under it, and the drawing is dragged. */
  readonly onGrab?: ((at: Place) => Grip | null) | undefined;
}

type Pointer = PointerEvent & { readonly currentTarget: EventTarget | null };

function placeOf(event: Pointer): Place {
  const box = (event.currentTarget as Element).getBoundingClientRect();
  return [event.clientX - box.left, event.clientY - box.top];
}

function cameraAfter(window: Window, hand: Hand, id: number, to: Place): Camera {
  const from = hand.fingers.get(id) ?? to;
  const other = [...hand.fingers].find(([key]) => key !== id)?.[1];
  if (other) return pinched(hand.camera, window, [from, other], [to, other]);
  return dragged(hand.camera, [to[0] - from[0], to[1] - from[1]]);
}

export function useGestures(listening: Listening) {
  const hand = useRef<Hand>({ camera: listening.camera, fingers: new Map(), start: null, moved: false, pinching: false, grip: null }).current;
  const letGo = () => {
    hand.grip?.onLeave();
    hand.grip = null;
  };
  const down = (event: Pointer) => {
    if (hand.fingers.size === 0) hand.camera = listening.camera;
    hand.fingers.set(event.pointerId, placeOf(event));
    hand.moved = hand.fingers.size > 1;
    hand.pinching = hand.moved;
    hand.start = placeOf(event);
    letGo();
    if (!hand.pinching) hand.grip = listening.onGrab?.(hand.start) ?? null;
  };
  const move = (event: Pointer) => {
    if (!hand.fingers.has(event.pointerId)) return;
    const to = placeOf(event);
    if (!hand.moved && hand.start && distance(hand.start, to) < STILL) return;
    if (!hand.moved) (event.currentTarget as Element).setPointerCapture(event.pointerId);
    hand.moved = true;
    if (hand.grip) {
      hand.fingers.set(event.pointerId, to);
      hand.grip.onMove(to);
      return;
    }
    if (listening.onStroke && hand.start && hand.fingers.size === 1 && !hand.pinching) {
      hand.fingers.set(event.pointerId, to);
      listening.onStroke(hand.start, to);
      return;
    }
    hand.camera = cameraAfter(listening.window, hand, event.pointerId, to);
    listening.onCamera(hand.camera);
    hand.fingers.set(event.pointerId, to);
  };
  const up = (event: Pointer) => {
    const tapped = hand.fingers.has(event.pointerId) && !hand.moved && event.type === "pointerup";
    hand.fingers.delete(event.pointerId);
    if (hand.grip && hand.moved && event.type === "pointerup") hand.grip.onDrop(placeOf(event));
    else letGo();
    hand.grip = null;
    if (tapped) listening.onTap(placeOf(event));
  };
  const wheel = (event: WheelEvent & { readonly currentTarget: EventTarget | null }) => {
    event.preventDefault();
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const hold: Place = [event.clientX - box.left, event.clientY - box.top];
    listening.onCamera(zoomed(listening.camera, listening.window, hold, event.deltaY < 0 ? WHEEL_STEP : 1 / WHEEL_STEP));
  };
  return { onWheel: wheel, onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: up };
}
