/** A top being tried: kept as a draft, so that leaving the screen loses nothing, and no decision until somebody takes it. */
import { clearDraft, getDraft, setDraft } from "../../state";
import type { Top } from "../../wire";

const keyOf = (roomId: string) => `trial:${roomId}`;

export function trialOf(roomId: string): Top | null {
  const kept = getDraft(keyOf(roomId));
  return kept === undefined ? null : (JSON.parse(kept) as Top);
}

export function setTrial(roomId: string, top: Top): Promise<void> {
  return setDraft(keyOf(roomId), JSON.stringify(top));
}

export function endTrial(roomId: string): Promise<void> {
  return clearDraft(keyOf(roomId));
}

/** The draft that taking a trial makes needless. */
export function trialDraft(roomId: string): { readonly draft: string } {
  return { draft: keyOf(roomId) };
}

export const LOWEST: Top = { kind: "level", height: null };
