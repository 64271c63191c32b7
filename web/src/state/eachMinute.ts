/**
 * A question to the engine about a room and the time it is: asked while somebody looks, again after every change of the
 * room's records, and every minute, because time goes on without any record.
 */
import { effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Problem, QuestionName } from "../wire";
import { askEngine } from "./asking";
import { documentTextOf } from "./document";

const EVERY_MS = 60_000;

export interface AskedEachMinute<T> {
  /** The newest answer; after a change of the records it stays until the next one. */
  readonly answer: T | null;
  readonly problems: readonly Problem[];
  readonly hasFailed: boolean;
}

/** One signal a room: read `.value` in a component or an effect. */
export function askedEachMinute<T extends object>(question: QuestionName): (roomId: string) => ReadonlySignal<AskedEachMinute<T>> {
  const known = new Map<string, Signal<AskedEachMinute<T>>>();
  return (roomId) => {
    const found = known.get(roomId) ?? watched<T>(question, roomId);
    known.set(roomId, found);
    return found;
  };
}

function nothing<T>(): AskedEachMinute<T> {
  return { answer: null, problems: [], hasFailed: false };
}

function watched<T extends object>(question: QuestionName, roomId: string): Signal<AskedEachMinute<T>> {
  let stop: (() => void) | null = null;
  const asked = signal<AskedEachMinute<T>>(nothing(), {
    watched: () => {
      const often = setInterval(() => ask(question, roomId, asked, documentTextOf(roomId).peek()), EVERY_MS);
      const end = effect(() => ask(question, roomId, asked, documentTextOf(roomId).value));
      stop = () => { clearInterval(often); end(); };
    },
    unwatched: () => stop?.(),
  });
  return asked;
}

function ask<T extends object>(question: QuestionName, roomId: string, asked: Signal<AskedEachMinute<T>>, text: string | null): void {
  if (text === null) { asked.value = nothing(); return; }
  const given = { document: JSON.parse(text) as object, now: new Date().toISOString() };
  void askEngine<T>(question, `${question}:${roomId}`, given).then((reply) => {
    if (reply.outcome === "replaced") return;
    if (reply.outcome === "answered") asked.value = { answer: reply.answer, problems: [], hasFailed: false };
    else if (reply.outcome === "problems") asked.value = { answer: null, problems: reply.problems, hasFailed: false };
    else asked.value = { ...asked.peek(), hasFailed: true };
  });
}
