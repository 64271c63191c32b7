/** Over everything: whether the bed keeps its limits, in words with a sign, and what decides it. */
import type { Flatness, StraightedgeCheck } from "../../wire";
import { t } from "../../words";
import { gapText, governingCheck, nearText, ruleText, SIGNS, verdictText, worstOf, type FlatnessView } from "../common/flatness";
import { fText, percentText } from "./telling";

/** A wedge shows what no reading did: told where it alone is beyond a limit. */
function wedgeBeyond({ gaps }: Flatness): string {
  const worst = gaps.filter(({ verdict }) => verdict === "beyond").sort((a, b) => b.measured - a.measured)[0];
  return worst ? t("checking.wedge_decides", { gap: gapText(worst.measured), rule: ruleText(worst.length), limit: gapText(worst.limit ?? 0) }) : "";
}

/** The worst that a wedge showed under a straightedge of a check's length or a longer one; null where none lay. */
function wedgeMost({ gaps }: Flatness, { length }: StraightedgeCheck): number | null {
  const told = gaps.filter((gap) => gap.length >= length * AS_LONG).map(({ measured }) => measured);
  return told.length === 0 ? null : Math.max(...told);
}

/** F-numbers that fall short of what is asked. */
function numbersShort({ f_numbers: numbers, needs_ff: needs }: Flatness): string {
  if (!numbers || needs === null) return "";
  return numbers.ff < needs ? t("checking.ff_decides", { ff: fText(numbers.ff), needs: fText(needs) }) : t("checking.fl_decides");
}

const AS_LONG = 0.98; // a straightedge is taken for one of a rule's length, as tapped on a drawing

/** Share of the bed from which on it counts as judged; what is unread then was worked over since. */
const JUDGED = 0.95;

/** Why the verdict is what it is, in one sentence. */
export function becauseOf(flatness: Flatness): string {
  const check = governingCheck(flatness);
  if (flatness.verdict === "not_read") return t("checking.not_read_more");
  if (flatness.verdict === "beyond" && check?.verdict !== "beyond") return wedgeBeyond(flatness) || numbersShort(flatness);
  if (!check) return "";
  const worst = worstOf(check);
  const [rule, limit] = [ruleText(check.length), gapText(check.limit)];
  if (check.verdict === "too_sparse" && check.judged_share >= JUDGED) return t("checking.unread_more", { rule });
  if (check.verdict === "too_sparse") return t("checking.sparse_more", { rule, share: percentText(check.judged_share) });
  const wedge = wedgeMost(flatness, check);
  if (wedge !== null && wedge > (worst?.lying.gap ?? 0)) return t("checking.wedge_most", { gap: gapText(wedge), rule, limit });
  return worst ? t(`checking.decides_${worst.kind}`, { gap: gapText(worst.lying.gap), rule, limit }) : t("checking.decides_none", { rule, limit });
}

/** The company's own limits hold, and there is none: nothing is judged, however much was read. */
function hasNoLimit({ standard, checks, needs_ff: needs }: Flatness): boolean {
  return standard === "own" && checks.length === 0 && needs === null;
}

/** Before anything of the bed is known. */
export function NotRead() {
  return (
    <div class="verdict not_read" data-testid="verdict" data-verdict="not_read" role="status">
      <span class="sign" aria-hidden="true">{SIGNS.not_read}</span>
      <p class="words">{t("checking.verdict.not_read")}</p>
      <p class="more">{t("checking.not_read_more")}</p>
    </div>
  );
}

export function VerdictHead({ view: { flatness, isOld } }: { view: FlatnessView }) {
  const { verdict } = flatness;
  const check = governingCheck(flatness);
  const isByWedge = check !== null && (wedgeMost(flatness, check) ?? 0) > (worstOf(check)?.lying.gap ?? 0);
  const near = check?.verdict === verdict && !isByWedge ? nearText(check) : ""; // what a wedge showed is no reading's doubt
  const isUnlimited = verdict === "not_read" && hasNoLimit(flatness);
  return (
    <div class="stack tight">
      <div class={`verdict ${verdict}${isOld ? " is-old" : ""}`} data-testid="verdict" data-verdict={verdict} role="status">
        <span class="sign" aria-hidden="true">{SIGNS[verdict]}</span>
        <p class="words">{isUnlimited ? t("checking.own_none") : verdictText(verdict)}</p>
        <p class="more">{isUnlimited ? t("checking.own_none_more") : becauseOf(flatness)} {near}</p>
      </div>
      <p class="old-line" data-testid="verdict-old">{isOld ? t("checking.old") : "\u00a0"}</p>
    </div>
  );
}
