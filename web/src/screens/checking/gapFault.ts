/** What cannot be a gap under a straightedge: it is told where it is typed, and stays typed. */
import { t } from "../../words";
import { ruleText } from "../common/flatness";

const LARGEST = 500; // mm: more is no gap under a straightedge

/** Why a gap (mm) under a straightedge of a length (mm) cannot be; null where it can. */
export function gapFault(gap: number, long: number): string | null {
  if (gap > LARGEST) return t("checking.gap_too_large", { most: LARGEST });
  return gap > long ? t("checking.gap_too_long", { rule: ruleText(long) }) : null;
}
