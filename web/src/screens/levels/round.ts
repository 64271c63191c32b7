/** The round of readings: which places are still to be read, which comes next, and which one the rod stands on. */
import { distance, type Place } from "../../drawing/camera";
import { proposedPlaces } from "../../drawing/pattern";
import type { Row } from "../../state";
import { cornersOf, type RoomFields } from "../common/roomFigure";

const SAME_PLACE = 40; // mm: nearer than a rod's foot can be told apart
const SERVES = 150; // mm: a reading this near a proposed place tells what that one would (common practice, no source)

export interface Round {
  /** Proposed places not read yet, in the order they are walked. */
  readonly left: readonly Place[];
  readonly proposed: number;
  /** Where the rod stands now, or null where everything proposed is read. */
  readonly current: Place | null;
}

export function placeDraft(room: string): string {
  return `place:${room}`;
}

/** The draft of a reading belongs to its place, so that half a number waits where it was begun. */
export function readingDraft(room: string, [x, y]: Place): string {
  return `reading:${room}:${x}:${y}`;
}

function isRead(readings: readonly Row<"reading">[], place: Place): boolean {
  return readings.some(({ fields }) => fields.at && fields.stage !== "bed" && distance(fields.at, place) < SERVES);
}

function chosenPlace(draft: string | undefined): Place | null {
  return draft === undefined ? null : (JSON.parse(draft) as Place);
}

/** After a reading the round goes on from there: the next proposed place after the last one read, else the first left. */
function following(proposed: readonly Place[], left: readonly Place[], last: Place | null): Place | null {
  const at = last ? proposed.findIndex((place) => distance(place, last) < SAME_PLACE) : -1;
  return left.find((place) => proposed.indexOf(place) > at) ?? left[0] ?? null;
}

/** `taking` are places whose reading is being saved; they count as read, so that the next key goes to the next place. */
export function roundOf(room: RoomFields, readings: readonly Row<"reading">[], taking: readonly Place[], draft: string | undefined): Round {
  const proposed = proposedPlaces(cornersOf(room.outline), room.outline?.cutouts ?? []);
  const isTaken = (place: Place) => taking.some((other) => distance(other, place) < SAME_PLACE);
  const left = proposed.filter((place) => !isTaken(place) && !isRead(readings, place));
  const last = taking.at(-1) ?? readings.at(-1)?.fields.at ?? null;
  const chosen = chosenPlace(draft);
  const current = chosen && !isTaken(chosen) ? chosen : following(proposed, left, last);
  return { left, proposed: proposed.length, current };
}
