/** The round of readings: which places are still to be read, which comes next, and what the rod stands on now. */
import { distance, type Place } from "../../drawing/camera";
import { FIRST_SETUP, readingsAt, type Row } from "../../state";
import type { Stage } from "../../wire";

const SAME_PLACE = 40; // mm: nearer than a rod's foot can be told apart
/** mm: a reading this near a proposed place tells what that one would (common practice, no source); on the bed the engine asks for the very place. */
const SERVES: Readonly<Record<Stage, number>> = { subfloor: 150, bed: SAME_PLACE };

/** What is read next: a place, a mark, or once more what another reading was taken on. */
export type Target =
  | { readonly place: Place }
  | { readonly mark: string }
  | { readonly again: string };

export interface Round {
  /** Proposed places neither read nor skipped, in the order they are walked. */
  readonly left: readonly Place[];
  /** Proposed places passed over and not read since. */
  readonly skipped: readonly Place[];
  /** How many proposed places are read, of those that were not skipped. */
  readonly done: number;
  readonly of: number;
  /** Null where everything proposed is read or skipped. */
  readonly current: Target | null;
  /** Whether `current` was chosen to tie the set-up to the others. */
  readonly isTie: boolean;
}

export interface RoundGiven {
  readonly stage: Stage;
  /** Those of the stage that count. */
  readonly readings: readonly Row<"reading">[];
  /** Places passed over. */
  readonly passed: readonly Place[];
  readonly proposed: readonly Place[];
  /** Places whose reading is on its way into storage: they count as read, so that the next key goes to the next place. */
  readonly taking: readonly Place[];
  /** What the person chose to read. */
  readonly chosen: Target | null;
  /** Where a number was begun and not finished. */
  readonly begun: Place | null;
  /** What would tie the set-up one reads from; empty where it is tied. */
  readonly ties: readonly Target[];
}

export function targetDraft(room: string, stage: Stage): string {
  return stage === "bed" ? `place:${room}:bed` : `place:${room}`;
}

/** What a kept choice stands for; a bare pair of numbers is a place. */
export function targetFromDraft(draft: string | undefined): Target | null {
  if (draft === undefined) return null;
  const kept = JSON.parse(draft) as Place | { readonly mark: string } | { readonly again: string };
  return "mark" in kept || "again" in kept ? kept : { place: kept };
}

export function draftFromTarget(target: Target): string {
  return JSON.stringify("place" in target ? target.place.map(Math.round) : target);
}

/** A re-read place keeps the very numbers of the first reading: only then it is the same place. */
export function draftOfReadPlace(at: Place): string {
  return JSON.stringify(at);
}

/** The draft of a reading belongs to what is read, so that half a number waits where it was begun. */
export function readingDraft(room: string, stage: Stage, target: Target): string {
  const of = stage === "bed" ? `reading:${room}:bed` : `reading:${room}`;
  if ("place" in target) return `${of}:${target.place.join(":")}`;
  return "mark" in target ? `${of}:mark:${target.mark}` : `${of}:again:${target.again}`;
}

export function isSamePlace(a: Place, b: Place): boolean {
  return distance(a, b) < SAME_PLACE;
}

/** The places of a stage that were read, in the order of the readings; marks are none. */
export function placesRead(readings: readonly Row<"reading">[], stage: Stage): readonly Place[] {
  return readingsAt(readings, stage).flatMap(({ fields: { at } }) => (at ? [at] : []));
}

function isServed(places: readonly Place[], place: Place, stage: Stage): boolean {
  return places.some((other) => distance(other, place) < SERVES[stage]);
}

/** After a reading the round goes on from there: the next proposed place after the last one read, else the first left. */
function following({ proposed, taking, readings }: RoundGiven, left: readonly Place[]): Place | null {
  const last = taking.at(-1) ?? readings.at(-1)?.fields.at ?? null;
  const at = last ? proposed.findIndex((place) => isSamePlace(place, last)) : -1;
  return left.find((place) => proposed.indexOf(place) > at) ?? left[0] ?? null;
}

function isTaken({ taking }: RoundGiven, target: Target): boolean {
  return "place" in target && taking.some((other) => isSamePlace(other, target.place));
}

export function roundOf(given: RoundGiven): Round {
  const { stage, readings, passed, proposed, taking, chosen, begun } = given;
  const readPlaces = placesRead(readings, stage);
  const open = proposed.filter((place) => !isServed(readPlaces, place, stage) && !taking.some((other) => isSamePlace(other, place)));
  const [left, skipped] = [open.filter((place) => !isServed(passed, place, stage)), open.filter((place) => isServed(passed, place, stage))];
  const counts = { done: proposed.length - open.length, of: proposed.length - skipped.length };
  if (chosen && !isTaken(given, chosen)) return { left, skipped, ...counts, current: chosen, isTie: false };
  if (begun && !isTaken(given, { place: begun })) return { left, skipped, ...counts, current: { place: begun }, isTie: false };
  const tie = given.ties.find((target) => !isTaken(given, target));
  const place = following(given, left);
  return { left, skipped, ...counts, current: tie ?? (place && { place }), isTie: tie !== undefined };
}

/** Marks first, then read places, the nearest to `near` first: what ties `setup` to the set-ups that hold together. */
export function tiesOf(readings: readonly Row<"reading">[], stage: Stage, marks: readonly { readonly id: string; readonly height?: number | null }[], tied: ReadonlySet<string>, near: Place | null): readonly Target[] {
  const from = readings.filter(({ fields }) => tied.has(fields.setup ?? FIRST_SETUP));
  const read = new Set(from.map(({ fields }) => fields.mark));
  const firm = marks.filter(({ id, height }) => read.has(id) || height != null);
  const places = placesRead(from, stage);
  const far = (place: Place) => (near ? distance(place, near) : 0);
  const ordered = near ? [...places].sort((a, b) => far(a) - far(b)) : [...places].reverse();
  return [...firm.map(({ id }): Target => ({ mark: id })), ...ordered.map((place): Target => ({ place }))];
}
