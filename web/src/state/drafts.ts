/** Drafts: every key press kept, so that leaving a screen in mid-number loses nothing. */
import { signal } from "@preact/signals";
import { port } from "./ports";

const drafts = signal<ReadonlyMap<string, string>>(new Map());

export function showDrafts(stored: readonly (readonly [string, string])[]): void {
  drafts.value = new Map(stored);
}

/** What was typed under `key` and not yet used, or undefined. Subscribes the component that reads it. */
export function getDraft(key: string): string | undefined {
  return drafts.value.get(key);
}

/** Shows at once; the promise resolves when the draft is committed on this phone. */
export function setDraft(key: string, value: string): Promise<void> {
  drafts.value = new Map(drafts.peek()).set(key, value);
  return port("storage").saveDraft(key, value);
}

export function clearDraft(key: string): Promise<void> {
  forgetDraft(key);
  return port("storage").saveDraft(key, null);
}

/** Drops the draft from show only: its removal was committed together with the action that used it. */
export function forgetDraft(key: string): void {
  const kept = new Map(drafts.peek());
  kept.delete(key);
  drafts.value = kept;
}
