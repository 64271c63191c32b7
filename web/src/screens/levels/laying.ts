/** A long level laid from place to place: where it lies now, and where it goes on from by itself. */
import { distance, type Place } from "../../drawing/camera";
import { clearDraft, getDraft, setDraft } from "../../state";
import { isSamePlace, placesRead } from "./round";
import type { Work } from "./work";

export interface LayingNow {
  readonly from: Place;
  /** Null where nothing proposed is left: tap a place. */
  readonly to: Place | null;
  readonly under: "from" | "to";
}

interface Kept {
  readonly from?: Place;
  readonly to?: Place;
  readonly under?: "from" | "to";
}

function layingDraft({ room, stage }: Work): string {
  return stage === "bed" ? `laying:${room.id}:bed` : `laying:${room.id}`;
}

export function gapDraft({ room, stage }: Work): string {
  return stage === "bed" ? `gap:${room.id}:bed` : `gap:${room.id}`;
}

function keptIn(work: Work): Kept {
  return JSON.parse(getDraft(layingDraft(work)) ?? "{}") as Kept;
}

/** From the place read last to the nearest one left, unless the person chose otherwise; null in a room without places. */
export function layingIn(work: Work): LayingNow | null {
  const kept = keptIn(work);
  const from = kept.from ?? placesRead(work.readings, work.stage).at(-1) ?? work.round.left[0];
  if (!from) return null;
  const left = work.round.left.filter((place) => !isSamePlace(place, from));
  const nearest = left.reduce<Place | null>((best, place) => (best && distance(best, from) <= distance(place, from) ? best : place), null);
  return { from, to: kept.to ?? nearest, under: kept.under ?? "to" };
}

function keep(work: Work, changed: Kept): void {
  void setDraft(layingDraft(work), JSON.stringify({ ...keptIn(work), ...changed }));
}

export function layTo(work: Work, to: Place): void {
  keep(work, { to });
}

/** Goes on from a place read already, as it was read: only then it is the same place. */
export function layFrom(work: Work, from: Place): void {
  keep(work, { from });
}

export function putGapUnder(work: Work, under: "from" | "to"): void {
  keep(work, { under });
}

/** The next laying goes on from where this one ended. */
export function forgetLaying(work: Work): Promise<void> {
  return clearDraft(layingDraft(work));
}
