/**
 * What every room waits for, by the engine on this phone: asked one room after the other while somebody looks at it, and
 * kept. Rooms in which nothing is placed are never asked about; a change asks again only about the rooms that it touches.
 */
import { effect, signal, type ReadonlySignal } from "@preact/signals";
import type { WaitingAnswer } from "../wire";
import { askEngine } from "./asking";
import { documentTextOf } from "./document";
import { allKinds, placedRooms } from "./records";

const ASK_AGAIN = ""; // where the engine broke: no document is so empty
const SETTLE_MS = 250; // after a change, before anything is worked out again

export interface RoomWaits {
  /** The newest answer; null where the engine could not read the room. */
  readonly answer: WaitingAnswer | null;
  /** The document that it belongs to. */
  readonly text: string;
}

const waits = signal<ReadonlyMap<string, RoomWaits>>(new Map());

/** By room. After a change a room keeps its last answer until the next one is there. */
export const boardWaits: ReadonlySignal<ReadonlyMap<string, RoomWaits>> = waits;
/** How many rooms are still to be asked about. */
export const boardLeft = signal(0);

/** Keeps the answers of rooms up to date until the returned function is called; `rooms` may grow and shrink meanwhile. */
export function watchBoard(rooms: () => readonly string[]): () => void {
  let round = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const stop = effect(() => {
    allKinds();
    round += 1;
    const own = round;
    clearTimeout(timer);
    timer = setTimeout(() => void askAll(rooms(), () => own !== round), own === 1 ? 0 : SETTLE_MS);
  });
  return () => {
    round += 1;
    clearTimeout(timer);
    stop();
  };
}

async function askAll(rooms: readonly string[], isOver: () => boolean): Promise<void> {
  const placed = placedRooms.peek();
  const toAsk = rooms.filter((room) => placed.has(room));
  boardLeft.value = toAsk.length;
  for (const room of toAsk) {
    if (isOver()) return;
    await askRoom(room);
    boardLeft.value -= 1;
  }
}

/** A document is composed, and a room asked about, in a turn of its own: a tap in between is answered first. */
async function askRoom(room: string): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve));
  const text = documentTextOf(room).peek();
  if (text === null || waits.peek().get(room)?.text === text) return;
  const now = new Date().toISOString();
  const reply = await askEngine<WaitingAnswer>("waiting", `board:${room}`, { document: JSON.parse(text) as object, now });
  if (reply.outcome === "replaced") return;
  const answer = reply.outcome === "answered" ? reply.answer : null;
  waits.value = new Map(waits.peek()).set(room, { answer, text: reply.outcome === "failed" ? ASK_AGAIN : text });
}
