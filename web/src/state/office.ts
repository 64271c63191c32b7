/** Joining the office and speaking with it; everything else happens by itself. */
import type { HistoryEntry, Kind } from "../wire";
import { port, type JoinOutcome } from "./ports";

/** Joins with the foreman's code. Never throws for a refusal: the outcome says what to tell the person. */
export function join(code: string, personName: string, deviceName = thisDevice()): Promise<JoinOutcome> {
  return port("office").join(code.trim(), personName.trim(), deviceName);
}

/** Stops sending from this phone. What it holds stays on it, and goes out after joining again. */
export function leave(): Promise<void> {
  return port("office").leave();
}

/** Asks at once instead of at the next occasion; resolves when that round is over, whatever its outcome. */
export function syncNow(): Promise<void> {
  return port("office").syncNow();
}

/** Who changed what and when, newest last. Needs the network; throws without it. */
export function historyOf(kind: Kind, id: string): Promise<readonly HistoryEntry[]> {
  return port("office").historyOf(kind, id);
}

/** Takes a refused change off the list once the person has seen it. */
export function dismissRefused(changeId: string): Promise<void> {
  return port("storage").dismissRefused(changeId);
}

/** The person agrees to the new version: one reload, with everything that waits still waiting. */
export function acceptUpdate(): void {
  port("update").accept();
}

function thisDevice(): string {
  return /Mobi|Android|iPhone/i.test(navigator.userAgent) ? "phone" : "computer";
}
