/** What to do: rail by rail, which end, up or down, by how much, and about how much mortar; and the tap that it is done. */
import { useEffect, useState } from "preact/hooks";
import { mayWrite, trueRails } from "../../../state";
import type { Correction, Plan } from "../../../wire";
import { t } from "../../../words";
import { Figure } from "../../common/Figure";
import { saved, sayOnlyLooks } from "../../common/saving";
import { standingsOf } from "../stations";
import { whereText } from "../Hand";
import { amountText, byRail, endArrow, hasMoves, movesOf, mudText, type ToCorrect } from "./correcting";

function stationText(plan: Plan, { rail, station }: Correction): string {
  const found = standingsOf(plan).find((standing) => standing.rail.id === rail && standing.index === station);
  return found ? whereText(found) : "";
}

function OneEnd({ plan, rail, correction, number }: { plan: Plan; rail: ToCorrect["rail"]; correction: Correction; number: number }) {
  const isDown = correction.raise < 0;
  return (
    <div class="correction-end" data-testid="correction" data-rail={rail.id} data-end={correction.end}>
      <span class="way" aria-hidden="true">{isDown ? "\u25bc" : "\u25b2"}</span>
      <Figure
        size="large" label={t(isDown ? "truing.let_down" : "truing.raise", { rail: rail.id, end: endArrow(rail, correction.end) })}
        value={amountText(correction)} plan={plan} path={`corrections[${number}].raise`} note={stationText(plan, correction)}
      />
      <p class="quiet mud">{mudText(correction)}</p>
    </div>
  );
}

/** `unread` are the rails that no reading tells of yet: what is to do may change with them. */
export function Corrections({ roomId, plan, unread }: { roomId: string; plan: Plan; unread: readonly string[] }) {
  const [busy, setBusy] = useState(false);
  useEffect(() => setBusy(false), [plan]); // the plan without it has come: only then can the next be told
  const done = (what: ToCorrect) => {
    if (!mayWrite.value) { sayOnlyLooks(); return; }
    setBusy(true);
    void saved(trueRails(roomId, [movesOf(what)])).then((isSaved) => { if (!isSaved) setBusy(false); });
  };
  const all = byRail(plan);
  if (all.length === 0) return null;
  return (
    <section class="stack tight" data-testid="corrections">
      <h2>{t("truing.to_do")}</h2>
      {unread.length > 0 && <p class="caution" data-testid="truing-unread">{t("truing.unread", { count: unread.length, rails: unread.join(", ") })}</p>}
      {all.map((what) => (
        <article key={what.rail.id} class="correction">
          {hasMoves(what.rail) && <h3>{t("rails.move_title", { rail: what.rail.id, lie: what.lie, lies: what.rail.settings.length })}</h3>}
          {what.corrections.map(({ correction, number }) => <OneEnd key={correction.end} plan={plan} rail={what.rail} correction={correction} number={number} />)}
          <button type="button" class="button wide" data-testid={`bedded-${what.rail.id}`} disabled={busy} onClick={() => done(what)}>{t("truing.bedded", { rail: what.rail.id })}</button>
        </article>
      ))}
      <p class="quiet small">{t("truing.bedded_more")}</p>
    </section>
  );
}
