/** The readings that were kept: each can be read again and deleted; those that no longer count say so. */
import { useState } from "preact/hooks";
import { deleteRecord, mayWrite, type Row } from "../../../state";
import { momentText } from "../../../units";
import type { Plan } from "../../../wire";
import { reader, t } from "../../../words";
import { Dialog } from "../../common/Dialog";
import { Link } from "../../common/Link";
import { pathOfHistory } from "../../common/route";
import { saved, sayOnlyLooks } from "../../common/saving";
import { showsText, signedText, whereOf } from "./telling";

interface ChecksProps {
  readonly plan: Plan;
  readonly checks: readonly Row<"rail_check">[];
  readonly onAgain: (check: Row<"rail_check">) => void;
}

type Fit = NonNullable<Plan["truing"]>["checks"][number] | undefined;

function Facts({ check: { fields }, fit }: { check: Row<"rail_check">; fit: Fit }) {
  const { reversed_off: back, level, taken_at: at, off, length } = fields;
  return (
    <dl class="inputs of-check">
      <div><dt>{t("truing.showed")}</dt><dd>{showsText(off ?? 0)}</dd></div>
      {back != null && <div><dt>{t("truing.showed_back")}</dt><dd>{showsText(back)}</dd></div>}
      {length != null && length > 0 && <div><dt>{t("truing.over")}</dt><dd>{t("truing.long", { long: length })}</dd></div>}
      {level != null && level !== "" && <div><dt>{t("truing.level")}</dt><dd>{level}</dd></div>}
      {fit?.off != null && <div><dt>{t("truing.freed")}</dt><dd>{showsText(fit.off)}</dd></div>}
      {fit?.residual != null && <div><dt>{t("truing.residual")}</dt><dd>{signedText(fit.residual)}</dd></div>}
      {at && <div><dt>{t("reading.taken")}</dt><dd>{momentText(at, reader.value)}</dd></div>}
    </dl>
  );
}

function CheckSheet({ check, fit, onAgain, onClose }: { check: Row<"rail_check">; fit: Fit; onAgain: () => void; onClose: () => void }) {
  const remove = () => {
    if (!mayWrite.value) { sayOnlyLooks(); return; }
    void saved(deleteRecord("rail_check", check.id)).then((isSaved) => { if (isSaved) onClose(); });
  };
  const again = () => { if (mayWrite.value) { onAgain(); onClose(); } else sayOnlyLooks(); };
  return (
    <Dialog title={whereOf(check.fields)} testid="check-sheet" onClose={onClose}>
      {fit?.counts === false && <p class="notice">{t("truing.outdated_more")}</p>}
      <Facts check={check} fit={fit} />
      <div class="row even">
        <button type="button" class="button main" data-testid="check-again" onClick={again}>{t("truing.correct")}</button>
        <button type="button" class="button danger" data-testid="check-delete" onClick={remove}>{t("reading.delete")}</button>
      </div>
      <Link to={pathOfHistory("rail_check", check.id)} class="button wide" testid="check-history">{t("history.open")}</Link>
    </Dialog>
  );
}

export function Checks({ plan, checks, onAgain }: ChecksProps) {
  const [open, setOpen] = useState<string | null>(null);
  if (checks.length === 0) return null;
  const fits = new Map((plan.truing?.checks ?? []).map((fit) => [fit.check, fit]));
  const opened = checks.find(({ id }) => id === open);
  return (
    <section class="stack tight">
      <h2>{t("truing.kept")}</h2>
      <ul class="stack tight">
        {[...checks].reverse().map((check) => {
          const isOutdated = fits.get(check.id)?.counts === false;
          return (
            <li key={check.id}>
              <button type="button" class={isOutdated ? "value-button outdated" : "value-button"} data-testid="check" onClick={() => setOpen(check.id)}>
                <span>{whereOf(check.fields)}{isOutdated && <span class="quiet small"> · {t("truing.outdated")}</span>}</span>
                <span class="given">{showsText(check.fields.off ?? 0)}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {opened && <CheckSheet check={opened} fit={fits.get(opened.id)} onAgain={() => onAgain(opened)} onClose={() => setOpen(null)} />}
    </section>
  );
}
