/** A straightedge laid on the bed by hand: its two ends, kept on this phone until another is laid. */
import { distance, type Place } from "../../../drawing/camera";

export interface Laid {
  readonly from: Place;
  /** Null while only one end lies. */
  readonly to: Place | null;
}

export interface Edge {
  readonly from: Place;
  readonly to: Place;
}

const SHORTEST = 50; // mm: less is no straightedge

export function edgeDraft(room: string): string {
  return `edge:${room}`;
}

/** Where a length is kept while it is told where a straightedge of it, passed over the whole bed, stood open most. */
export function passedDraft(room: string): string {
  return `passed-edge:${room}`;
}

export function laidFromDraft(draft: string | undefined): Laid | null {
  return draft === undefined ? null : (JSON.parse(draft) as Laid);
}

/** The two ends, where both lie and not on one another. */
export function wholeEdge(laid: Laid | null): Edge | null {
  return laid?.to && distance(laid.from, laid.to) >= SHORTEST ? { from: laid.from, to: laid.to } : null;
}

/** A tap lays the first end, the next one the second; a third begins anew. */
export function tapped(laid: Laid | null, [x, y]: Place): Laid {
  const at: Place = [Math.round(x), Math.round(y)];
  return laid && !laid.to ? { from: laid.from, to: at } : { from: at, to: null };
}

export function lengthOf({ from, to }: Edge): number {
  return distance(from, to);
}
