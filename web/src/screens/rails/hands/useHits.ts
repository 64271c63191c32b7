/**
 * Hits on a wet screen: a touch counts when the finger is lifted over the area that it came down on, wherever it slid
 * meanwhile and whatever drops lie elsewhere; a second hit within the pause is the same one.
 */
import { useRef } from "preact/hooks";

export const PAUSE_MS = 400;

/** Says which of the hits count: each that comes at least the pause after the last one that did. */
export function pausing(pauseMs: number = PAUSE_MS): (atMs: number) => boolean {
  let last = -Infinity;
  return (atMs) => {
    if (atMs - last < pauseMs) return false;
    last = atMs;
    return true;
  };
}

type Pointer = PointerEvent & { readonly currentTarget: EventTarget | null };

function isOver(event: Pointer): boolean {
  const box = (event.currentTarget as Element).getBoundingClientRect();
  return event.clientX >= box.left && event.clientX <= box.right && event.clientY >= box.top && event.clientY <= box.bottom;
}

export type Hit = (act: () => void) => {
  readonly onPointerDown: (event: Pointer) => void;
  readonly onPointerUp: (event: Pointer) => void;
  readonly onPointerCancel: (event: Pointer) => void;
  readonly onClick: (event: MouseEvent) => void;
};

/** What makes an area one to hit; all areas of a screen share one pause. */
export function useHits(): Hit {
  const counts = useRef(pausing()).current;
  const down = useRef(new Map<number, EventTarget | null>()).current;
  return (act) => ({
    onPointerDown: (event) => {
      down.set(event.pointerId, event.currentTarget);
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
    },
    onPointerUp: (event) => {
      const isHere = down.get(event.pointerId) === event.currentTarget && isOver(event);
      down.delete(event.pointerId);
      if (isHere && counts(event.timeStamp)) act();
    },
    onPointerCancel: (event) => void down.delete(event.pointerId),
    // A click without a pointer comes from a key or from a screen reader.
    onClick: (event) => { if (event.detail === 0 && counts(event.timeStamp)) act(); },
  });
}
