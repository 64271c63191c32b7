/** What the office answered to a foreman's wish, in words. */
import type { Answer, NotDone } from "../../state";
import { t, told } from "../../words";

/** Null where it was done. */
export function notDoneText(answer: Answer): string | null {
  return answer.outcome === "done" ? null : refusalText(answer);
}

export function refusalText({ outcome, message }: NotDone): string {
  return told("answer", outcome, {}, t("answer.other", { message }));
}
