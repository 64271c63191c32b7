/** A straightedge is passed over the whole bed before its worst gap is measured: then it tells of all of it. */
import { editGap, type Row } from "../../state";
import { t } from "../../words";
import { saved } from "../common/saving";

export function PassedOver({ gap }: { gap: Row<"gap"> }) {
  const isPassed = gap.fields.passed_over === true;
  return (
    <>
      <button type="button" class="button wide" aria-pressed={isPassed} data-testid="passed-over" onClick={() => void saved(editGap(gap.id, { passed_over: !isPassed }))}>
        {t(isPassed ? "checking.passed_over_yes" : "checking.passed_over")}
      </button>
      <p class="quiet small">{t("checking.passed_over_more")}</p>
    </>
  );
}
