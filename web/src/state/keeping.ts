/** The browser's promise not to evict what is stored: asked for when there is something to keep, its answer on show. */
import { storageState } from "./status";

const KEPT_AT = "evenbed.asked_to_keep";

/** Asks for the promise now and shows the answer. Some browsers ask the person, some refuse in a tab. */
export async function askToKeep(): Promise<void> {
  if (!("storage" in navigator)) return;
  await navigator.storage.persist();
  localStorage.setItem(KEPT_AT, new Date().toISOString());
  await lookAtStorage();
}

/** Shows what the browser has promised and how full it is, without asking for anything. */
export async function lookAtStorage(): Promise<void> {
  if (!("storage" in navigator)) return;
  const [persisted, { usage, quota }] = await Promise.all([navigator.storage.persisted(), navigator.storage.estimate()]);
  const askedAt = localStorage.getItem(KEPT_AT);
  const found = { persisted, askedAt, usedBytes: usage ?? null, quotaBytes: quota ?? null };
  storageState.value = { ...storageState.peek(), ...found };
}
