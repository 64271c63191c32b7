/** When the browser is asked to keep what is stored: once there is something to lose, and again once installed. */
import { askToKeep } from "../state";
import { storageState } from "../state/status";
import type { Storage } from "../storage";

/** Not before the person has saved work here or joined: a browser that asks them then is understood, or agrees itself. */
export function watchForWorkToKeep(storage: Storage): void {
  let isAsked = false;
  storage.onStanding(({ waiting, account }) => {
    const { persisted, askedAt } = storageState.peek();
    if (isAsked || persisted === true || askedAt !== null || (waiting === 0 && !account.joined)) return;
    isAsked = true;
    void askToKeep();
  });
  addEventListener("appinstalled", () => void askToKeep());
}
