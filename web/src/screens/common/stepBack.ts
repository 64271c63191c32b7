/** The one undo takes back unsaved steps first: a screen in the middle of something offers its own step back. */
import { signal } from "@preact/signals";

export const stepBack = signal<(() => void) | null>(null);

/** For an effect: offers `step` while the screen stands, and takes the offer back when it leaves. */
export function offerStepBack(step: (() => void) | null): () => void {
  stepBack.value = step;
  return () => { if (stepBack.peek() === step) stepBack.value = null; };
}
