/**
 * The places that the check asks for, a few at a time. Every new plan asks anew: the few in hand stay until they are read,
 * so that the rod's next place never jumps, and a number begun at one of them is found again. What the newest plan asks for
 * besides joins on behind them, so that the round goes on to its end without waiting between one few and the next.
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

/** How far a place lies from the nearest of some others. */
function farFrom(places: readonly Place[], place: Place): number {
  return Math.min(...places.map((other) => distance(other, place)));
}

/** As many as are asked for: those in hand, and behind them one after the other the place asked for farthest from all of them. */
function joined(open: readonly Place[], asked: readonly Place[]): readonly Place[] {
  const next = [...asked].sort((a, b) => farFrom(open, b) - farFrom(open, a))[0];
  return open.length >= asked.length || !next || farFrom(open, next) < SAME_PLACE ? open : joined([...open, next], asked);
}

/** Those in hand that are neither read nor passed over, then as many more as are asked for; none once the check asks for none. */
export function batchAfter(inHand: readonly Place[] | null, asked: readonly Place[] | null, done: readonly Place[]): readonly Place[] | null {
  const open = (places: readonly Place[]) => places.filter((place) => done.length === 0 || farFrom(done, place) >= SAME_PLACE);
  const [left, wanted] = [open(inHand ?? []), open(asked ?? [])];
  return left.length === 0 || asked === null || asked.length === 0 ? asked : joined(left, wanted);
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
