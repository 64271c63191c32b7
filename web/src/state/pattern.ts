/**
 * The places to read in a room, as the engine proposes them for its outline: asked while a component watches, again when
 * outline, doorways, fixtures or straightedge change. The last answer is kept on the phone, for the time before the
 * engine is awake.
 */
import { computed, effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { WalkAnswer, WalkPlace } from "../wire";
import { askEngine } from "./asking";
import { documentFromParts } from "./document";
import { roomOf } from "./records";

const KEPT_AT = "evenbed.patterns";
const MOST_KEPT = 40;

interface Kept {
  readonly room: string;
  /** What was asked. */
  readonly of: string;
  readonly places: readonly WalkPlace[];
}

const patterns = new Map<string, ReadonlySignal<readonly WalkPlace[] | null>>();

/** Null until the engine has answered for this outline, now or at an earlier time. */
export function patternOf(roomId: string): ReadonlySignal<readonly WalkPlace[] | null> {
  const known = patterns.get(roomId) ?? watchedPattern(roomId);
  patterns.set(roomId, known);
  return known;
}

function watchedPattern(roomId: string): ReadonlySignal<readonly WalkPlace[] | null> {
  let stop: (() => void) | null = null;
  const asked = computed(() => askedOf(roomId));
  const pattern: Signal<readonly WalkPlace[] | null> = signal<readonly WalkPlace[] | null>(null, {
    watched: () => {
      stop = effect(() => ask(roomId, asked.value, pattern));
    },
    unwatched: () => stop?.(),
  });
  return pattern;
}

/** The room without what was read in it: readings change, the places to read do not. */
function askedOf(roomId: string): string | null {
  const fields = roomOf(roomId)?.fields;
  if (!fields?.outline) return null;
  const { outline, openings = null, fixtures = null, "rails.straightedge": straightedge = null } = fields;
  const room = { outline, openings, fixtures, "rails.straightedge": straightedge };
  return JSON.stringify(documentFromParts({ room, readings: [], climate: [], placements: [] }));
}

function ask(roomId: string, of: string | null, pattern: Signal<readonly WalkPlace[] | null>): void {
  pattern.value = of === null ? null : (kept().find((one) => one.room === roomId && one.of === of)?.places ?? null);
  if (of === null) return;
  void askEngine<WalkAnswer>("walk", `walk:${roomId}`, JSON.parse(of) as object).then((asked) => {
    // Where the outline has problems, its plan tells them; where the engine broke, the plan tells that too.
    if (asked.outcome !== "answered") return;
    pattern.value = asked.answer.places;
    keep({ room: roomId, of, places: asked.answer.places });
  });
}

function kept(): readonly Kept[] {
  const text = typeof localStorage === "undefined" ? null : localStorage.getItem(KEPT_AT);
  return text === null ? [] : (JSON.parse(text) as readonly Kept[]);
}

function keep(one: Kept): void {
  if (typeof localStorage === "undefined") return;
  const others = kept().filter(({ room }) => room !== one.room);
  localStorage.setItem(KEPT_AT, JSON.stringify([one, ...others].slice(0, MOST_KEPT)));
}
