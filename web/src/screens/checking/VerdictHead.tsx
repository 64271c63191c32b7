/** Over everything: whether the bed keeps its limits, in words with a sign, and what decides it. */
import type { Flatness } from "../../wire";
import { t } from "../../words";
import { gapText, governingCheck, nearText, ruleText, SIGNS, verdictText, worstOf, type FlatnessView } from "../common/flatness";
import { fText, percentText } from "./telling";

/** A wedge shows what no reading did: told where it alone is beyond a limit. */
function wedgeBeyond({ gaps }: Flatness): string {
  const worst = gaps.filter(({ verdict }) => verdict === "beyond").sort((a, b) => b.measured - a.measured)[0];
  return worst ? t("checking.wedge_decides", { gap: gapText(worst.measured), rule: ruleText(worst.length), limit: gapText(worst.limit ?? 0) }) : "";
}

/** F-numbers that fall short of what is asked. */
function numbersShort({ f_numbers: numbers, needs_ff: needs }: Flatness): string {
  if (!numbers || needs === null) return "";
  return numbers.ff < needs ? t("checking.ff_decides", { ff: fText(numbers.ff), needs: fText(needs) }) : t("checking.fl_decides");
}

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
  return worst ? t(`checking.decides_${worst.kind}`, { gap: gapText(worst.lying.gap), rule, limit }) : t("checking.decides_none", { rule, limit });
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
  const near = check?.verdict === verdict ? nearText(check) : "";
  return (
    <div class="stack tight">
      <div class={`verdict ${verdict}${isOld ? " is-old" : ""}`} data-testid="verdict" data-verdict={verdict} role="status">
        <span class="sign" aria-hidden="true">{SIGNS[verdict]}</span>
        <p class="words">{verdictText(verdict)}</p>
        <p class="more">{becauseOf(flatness)} {near}</p>
      </div>
      <p class="old-line" data-testid="verdict-old">{isOld ? t("checking.old") : "\u00a0"}</p>
    </div>
  );
}
