/** A window in words, no finer than it is known: its ends to the next hour, what is likely to the next ten minutes. */
import { roundedUp } from "../../units";
import { t } from "../../words";
import { isOneDay, type Countdown } from "./standing";

type Window = Pick<Countdown, "early" | "likely" | "late" | "state">;
const HOUR_MIN = 60;
const LIKELY_MIN = 10;

/** When it is likely, or why there is no time. */
export function likelyText({ likely, state }: Window): string {
  if (state === "never") return t("waiting.never_more");
  return likely === null ? t("wait_reason.not_placed") : t("waiting.likely", { likely: roundedUp(likely, LIKELY_MIN) });
}

/** From when to when; empty where there is no window. */
export function betweenText(window: Window): string {
  if (window.early === null || window.late === null) return "";
  const [early, late] = [roundedUp(window.early, HOUR_MIN), roundedUp(window.late, HOUR_MIN)];
  return t(isOneDay(early, late) ? "waiting.between_same_day" : "waiting.between", { early, late });
}
