/** How a request that a person made ends: done, or the office's no in its own code. Never an exception for a refusal. */
import type { Answer, NotDone, ProblemCode } from "../wire";
import { NoReply, ProblemReply } from "./service";

/** What `work` gave, or why it did not happen. */
export async function answered<T extends object>(work: Promise<T>): Promise<Answer<T>> {
  try {
    return { outcome: "done", ...(await work) };
  } catch (error) {
    return notDone(error);
  }
}

/** An error without a code of the service's came from something in between: the office itself did not answer. */
function notDone(error: unknown): NotDone {
  if (error instanceof NoReply) return { outcome: "offline", message: error.message };
  if (!(error instanceof ProblemReply)) throw error;
  if (!error.isOfTheService) return { outcome: "offline", message: error.message };
  return { outcome: error.code as ProblemCode, message: error.detail };
}

export type JoinOutcome =
  | { readonly outcome: "joined" }
  | { readonly outcome: "wrong_code" | "name_needed" | "too_many_tries" | "offline" | "update_needed" }
  | { readonly outcome: "failed"; readonly message: string };

export function joinOutcomeFrom(error: unknown): JoinOutcome {
  if (error instanceof NoReply) return { outcome: "offline" };
  if (!(error instanceof ProblemReply)) throw error;
  const { code } = error;
  const isKnown = code === "wrong_code" || code === "name_needed" || code === "too_many_tries" || code === "update_needed";
  return isKnown ? { outcome: code } : { outcome: "failed", message: error.detail };
}
