/**
 * The places that the check asks for, a few at a time. Every new plan asks anew: the few in hand stay until they are read,
 * so that the rod's next place never jumps, and a number begun at one of them is found again.
 */
import { useEffect, useRef } from "preact/hooks";
import { distance, type Place } from "../../drawing/camera";
import { getDraft, readingsAt, setDraft } from "../../state";
import type { Flatness } from "../../wire";
import { flatnessOf } from "../common/flatness";
import type { RoomView } from "../common/useRoom";
import { passedIn } from "../levels/passing";
import type { Of } from "../levels/work";

const SAME_PLACE = 40; // mm: as the round takes two places for one

/** Where the check asks for readings. Null where it asks for none and cannot judge yet: then corners, walls and a plain grid. */
export function askedFor(flatness: Pick<Flatness, "verdict" | "next_readings"> | undefined): readonly Place[] | null {
  const isJudged = flatness?.verdict === "within" || flatness?.verdict === "beyond";
  return flatness && (isJudged || flatness.next_readings.length > 0) ? flatness.next_readings : null;
}

/** Those in hand as long as one of them is neither read nor passed over, and as long as the check asks at all; then the next. */
export function batchAfter(inHand: readonly Place[] | null, asked: readonly Place[] | null, done: readonly Place[]): readonly Place[] | null {
  const isOpen = inHand?.some((place) => !done.some((other) => distance(other, place) < SAME_PLACE)) ?? false;
  return isOpen && asked !== null && asked.length > 0 ? inHand : asked;
}

function batchDraft(room: string): string {
  return `asked:${room}:bed`;
}

/** The bed, at the places in hand. */
export function useBed(room: RoomView | null): Of {
  const view = room && flatnessOf(room);
  const flatness = view?.flatness;
  const inHand = useRef<readonly Place[] | null>(null);
  const outdated = new Set(flatness?.stale ?? []);
  const read = readingsAt(room?.readings ?? [], "bed").flatMap(({ id, fields: { at } }) => (at && !outdated.has(id) ? [at] : []));
  const done = [...read, ...(room ? passedIn(room, "bed") : [])];
  const proposed = batchAfter(inHand.current, askedFor(flatness), done);
  inHand.current = proposed;
  const draft = batchDraft(room?.id ?? "");
  const before = JSON.parse(getDraft(draft) ?? "[]") as readonly Place[];
  const text = JSON.stringify(proposed ?? []);
  useEffect(() => { if (room && proposed && proposed.length > 0) void setDraft(draft, text); }, [draft, text]);
  return { stage: "bed", proposed, outdated, before, isReckoning: view ? view.isOld : room?.state.status === "computing" };
}
