/** When the bed can be used, in words: on the screen for the waiting and on paper. */
import { momentText } from "../../units";
import type { Readiness } from "../../wire";
import { reader, t, told } from "../../words";

export function milestoneName(row: Readiness): string {
  return told("milestone", row.milestone, {}, row.milestone);
}

export function basisText(row: Readiness): string {
  return told("basis", row.code, row.values, row.basis);
}

export function whenText(row: Readiness): string {
  if (row.at) return momentText(row.at, reader.value);
  if (row.after_h !== null) return t("waiting.after", { hours: row.after_h });
  return told("wait_reason", row.reason_code ?? undefined, {}, row.reason ?? t("none_yet"));
}
