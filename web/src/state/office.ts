/** Joining the office and speaking with it; everything else happens by itself. */
import type { Answer, History, Kind, Unsent } from "../wire";
import { reload } from "./connect";
import { port, type JoinOutcome, type ReadOutcome, type UnsentFile } from "./ports";
import { checkMayWrite } from "./status";

/**
 * Joins with the foreman's code. The name may be empty: most codes say who they are for, the others answer
 * `name_needed`. Never throws for a refusal: the outcome says what to tell the person.
 */
export function join(code: string, personName: string, deviceName = thisDevice()): Promise<JoinOutcome> {
  return port("office").join(code.trim(), personName.trim(), deviceName);
}

/**
 * Stops sending from this phone and takes it off the office's list. What it holds stays on it, and goes out after
 * joining again. `offline`: this phone has stopped all the same, and the office still lists it until a foreman
 * removes it. Any other outcome: the office said no, and the phone stays joined.
 */
export function leave(): Promise<Answer> {
  return port("office").leave();
}

/** Asks at once instead of at the next occasion; resolves when that round is over, whatever its outcome. */
export function syncNow(): Promise<void> {
  return port("office").syncNow();
}

/** Who changed what and when, newest last: from the office, or without it the last story kept on this phone. */
export function historyOf(kind: Kind, id: string): Promise<History> {
  return port("office").historyOf(kind, id);
}

/** This phone's changes of one record that the office has not taken yet, in order: the end of its story. */
export function unsentOf(kind: Kind, id: string): Promise<readonly Unsent[]> {
  return port("storage").unsentOf(kind, id);
}

/** Everything unsent as a file's name and text. Works joined or not, and says in `missing` what could not be read. */
export function unsentFile(): Promise<UnsentFile> {
  return port("storage").unsentFile();
}

/** Takes the changes of such a file into this phone's queue, each once, however often it is read. */
export async function readUnsentFile(text: string): Promise<ReadOutcome> {
  checkMayWrite();
  const outcome = await port("storage").readUnsentFile(text);
  if (outcome.outcome === "read") await reload();
  return outcome;
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
