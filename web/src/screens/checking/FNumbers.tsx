/** F-numbers with what they rest on, or what is missing before they can be told. */
import type { Flatness, Plan } from "../../wire";
import { t, told } from "../../words";
import { Figure } from "../common/Figure";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { fText } from "./telling";

type Numbers = NonNullable<Flatness["f_numbers"]>;

interface OneProps {
  readonly which: "ff" | "fl";
  readonly numbers: Numbers;
  readonly needs: number | null;
  readonly plan: Plan;
}

function One({ which, numbers, needs, plan }: OneProps) {
  const value = numbers[which];
  return (
    <Figure
      label={t(`checking.${which}`)} value={value === null ? t("checking.none") : fText(value)} note={needs === null ? "" : t("checking.f_needs", { needs: fText(needs) })}
      plan={plan} path={`flatness.f_numbers.${which}`}
    />
  );
}

export function FNumbers({ flatness, plan }: { flatness: Flatness; plan: Plan }) {
  const { f_numbers: numbers, f_needs: lacks, needs_ff: needsFf, needs_fl: needsFl } = flatness;
  if (!numbers && needsFf === null && flatness.f_lines.length === 0) return null;
  return (
    <section class="stack tight" data-testid="f-numbers">
      <h2>{t("checking.f_title")}</h2>
      {numbers ? (
        <>
          <div class="figures">
            <One which="ff" numbers={numbers} needs={needsFf} plan={plan} />
            <One which="fl" numbers={numbers} needs={needsFl} plan={plan} />
          </div>
          <Cautions cautions={cautionsAt(plan, "flatness.f_numbers")} />
          <p class="quiet small">{t("checking.f_rest", { lines: numbers.lines, heights: numbers.heights })}</p>
        </>
      ) : <p class="notice" data-testid="f-lacks">{told("f_needs", lacks ?? undefined, {}, t("checking.f_lacks"))}</p>}
    </section>
  );
}
