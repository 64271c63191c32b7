/**
 * How the filling of a room stands by the engine: asked while somebody looks, again after every change of the room's
 * records, and every minute, because time goes on without any record.
 */
import { effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { FillClock, Problem } from "../wire";
import { askEngine } from "./asking";
import { documentTextOf } from "./document";

const EVERY_MS = 60_000;

export interface FillClockState {
  /** The newest answer; after a change of the records it stays until the next one. */
  readonly clock: FillClock | null;
  readonly problems: readonly Problem[];
  readonly hasFailed: boolean;
}

const NOTHING: FillClockState = { clock: null, problems: [], hasFailed: false };
const clocks = new Map<string, Signal<FillClockState>>();

/** The clock of a room as a signal: read `.value` in a component or an effect. */
export function fillClockOf(roomId: string): ReadonlySignal<FillClockState> {
  const known = clocks.get(roomId) ?? watchedClock(roomId);
  clocks.set(roomId, known);
  return known;
}

function watchedClock(roomId: string): Signal<FillClockState> {
  let stop: (() => void) | null = null;
  const clock = signal<FillClockState>(NOTHING, {
    watched: () => {
      const often = setInterval(() => ask(roomId, clock, documentTextOf(roomId).peek()), EVERY_MS);
      const end = effect(() => ask(roomId, clock, documentTextOf(roomId).value));
      stop = () => { clearInterval(often); end(); };
    },
    unwatched: () => stop?.(),
  });
  return clock;
}

function ask(roomId: string, clock: Signal<FillClockState>, text: string | null): void {
  if (text === null) { clock.value = NOTHING; return; }
  const question = { document: JSON.parse(text) as object, now: new Date().toISOString() };
  void askEngine<FillClock>("fill_clock", `fill_clock:${roomId}`, question).then((asked) => {
    if (asked.outcome === "replaced") return;
    if (asked.outcome === "answered") clock.value = { clock: asked.answer, problems: [], hasFailed: false };
    else if (asked.outcome === "problems") clock.value = { clock: null, problems: asked.problems, hasFailed: false };
    else clock.value = { ...clock.peek(), hasFailed: true };
  });
}
