/** A window in words. */
import { t } from "../../words";
import type { Countdown } from "./standing";
import { isOneDay } from "./standing";

export function windowText({ early, likely, late, state }: Pick<Countdown, "early" | "likely" | "late" | "state">): string {
  if (state === "never") return t("waiting.never_more");
  if (likely === null) return t("wait_reason.not_placed");
  if (early === null || late === null) return t("waiting.likely_alone", { likely });
  return t(isOneDay(early, likely, late) ? "waiting.likely_same_day" : "waiting.likely", { early, likely, late });
}
