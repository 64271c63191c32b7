/** The bed as it would be under another top: asked while a thumb moves it. Nothing is stored here. */
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { askEngine, documentTextOf } from "../../state";
import type { BedDesign, Problem, RoomDocument, Top } from "../../wire";

export interface BedState {
  /** none: nothing is asked · asked: an answer is on its way · ready · problems: no bed under this top · failed: the engine broke. */
  readonly status: "none" | "asked" | "ready" | "problems" | "failed";
  /** The newest answer; while `status` is "asked" it may belong to an earlier top. */
  readonly design: BedDesign | null;
  readonly problems: readonly Problem[];
}

const NONE: BedState = { status: "none", design: null, problems: [] };

/** The room's bed under `top`, null for none. `slot` names the asker: a later question of the same one takes its place. */
export function useBed(roomId: string, slot: string, top: Top | null): BedState {
  const [state, setState] = useState(NONE);
  const document = documentTextOf(roomId).value;
  const wanted = top === null || document === null ? null : withTop(document, top);
  useEffect(() => {
    if (wanted === null) {
      setState(NONE);
      return;
    }
    let isCurrent = true;
    setState((before) => ({ ...before, status: "asked" }));
    void askBed(roomId, slot, wanted).then((answer) => {
      if (!isCurrent || !answer) return;
      performance.clearMarks(`${slot} answered`);
      performance.mark(`${slot} answered`);
      setState(answer);
    });
    return () => { isCurrent = false; };
  }, [roomId, slot, wanted]);
  useLayoutEffect(() => { if (state.status === "ready") markShown(slot); }, [slot, state]);
  return state;
}

/** From the engine's answer to the figures on the page, for whoever looks at the browser's own clock. */
function markShown(slot: string): void {
  performance.clearMeasures(`${slot} shown`);
  performance.measure(`${slot} shown`, `${slot} answered`);
}

/** Null where a later question took this one's place. */
async function askBed(roomId: string, slot: string, document: string): Promise<BedState | null> {
  const asked = await askEngine<BedDesign>("bed_design", `bed:${roomId}:${slot}`, JSON.parse(document) as object);
  if (asked.outcome === "answered") return { status: "ready", design: asked.answer, problems: [] };
  if (asked.outcome === "problems") return { status: "problems", design: null, problems: asked.problems };
  return asked.outcome === "failed" ? { status: "failed", design: null, problems: [] } : null;
}

/** The document, as text, with another top. */
export function withTop(document: string, top: Top): string {
  const room = JSON.parse(document) as RoomDocument;
  return JSON.stringify({ ...room, bed: { ...room.bed, top } });
}
