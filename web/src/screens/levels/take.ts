/** Readings taken without waiting for the storage; one that could not be saved comes back with what was typed. */
import { useCallback, useRef } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { addReading, clearDraft, correctReading, FIRST_SETUP, getDraft, rowOf } from "../../state";
import { saved } from "../common/saving";
import type { Stage } from "../../wire";
import { readingDraft, targetDraft, type Target } from "./round";
import type { Work } from "./work";

/** Places whose reading is on its way into storage: the round has gone on from them already. */
export type Taking = readonly Place[];
export type Take = (down: number, typed: string) => void;

interface Read {
  readonly down: number;
  readonly typed: string;
}

function setupFields(setup: string): { readonly setup?: string } {
  return setup === FIRST_SETUP ? {} : { setup };
}

/** A correction read from another set-up is that set-up's reading; while a long level is laid (null) it stays its laying's. */
function corrected(id: string, read: Read, setup: string | null, draft: string): Promise<string> {
  const before = rowOf("reading", id)?.fields.setup ?? FIRST_SETUP;
  return correctReading(id, setup === null || before === setup ? read : { ...read, setup: setup === FIRST_SETUP ? null : setup }, { draft });
}

function keep(roomId: string, stage: Stage, target: Target, setup: string | null, read: Read): Promise<string> {
  const draft = readingDraft(roomId, stage, target);
  if ("again" in target) return corrected(target.again, read, setup, draft);
  const on = "mark" in target ? { mark: target.mark } : { at: target.place, stage };
  return addReading(roomId, { ...read, ...on, ...setupFields(setup ?? FIRST_SETUP) }, { draft });
}

export function useTaking({ room, stage, round: { current: target }, standing }: Work, onTaking: (change: (places: Taking) => Taking) => void): Take {
  const roomId = room.id;
  const busy = useRef(new Set<string>()).current;
  const setup = "setup" in standing ? standing.setup : null;
  const key = target ? readingDraft(roomId, stage, target) : "";
  return useCallback((down: number, typed: string) => {
    if (!target || busy.has(key)) return;
    busy.add(key);
    const place = "place" in target ? target.place : null;
    if (place) onTaking((places) => [...places, place]);
    if (getDraft(targetDraft(roomId, stage)) !== undefined) void saved(clearDraft(targetDraft(roomId, stage)));
    if ("vibrate" in navigator) navigator.vibrate(25);
    void saved(keep(roomId, stage, target, setup, { down, typed })).then(() => {
      busy.delete(key);
      onTaking((places) => places.filter((other) => other !== place));
    });
  }, [roomId, key, setup]);
}
