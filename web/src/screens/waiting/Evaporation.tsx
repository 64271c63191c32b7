/** How fast a wet surface dries, with its doubt, against the threshold. */
import { EvaporationPlot } from "../../plots/EvaporationPlot";
import type { WaitingAnswer } from "../../wire";
import { t } from "../../words";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";

type Rate = WaitingAnswer["evaporation"][number];

/** The fastest from a moment (ms) on; null where all is past. */
export function fastestAhead(rates: readonly Rate[], now: number): Rate | null {
  const ahead = rates.filter(({ at }) => Date.parse(at) >= now);
  return ahead.reduce<Rate | null>((most, one) => (most === null || one.rate > most.rate ? one : most), null);
}

function Worst({ worst }: { worst: Rate }) {
  return (
    <div class={`evaporation-worst ${worst.level}`} data-testid="evaporation-worst" data-level={worst.level}>
      <strong>{t("evaporation.worst", { rate: worst.rate, at: worst.at })}</strong>
      <p>{t("evaporation.band", { low: worst.low, high: worst.high })}</p>
      <p class="state-words">{t(`evaporation.level_${worst.level}`)}</p>
    </div>
  );
}

export function Evaporation({ answer }: { answer: WaitingAnswer }) {
  const rates = answer.evaporation;
  if (rates.length === 0) return <p class="quiet small" data-testid="evaporation-unknown">{t("evaporation.unknown")}</p>;
  const worst = fastestAhead(rates, Date.parse(answer.now));
  return (
    <section class="stack tight" data-testid="evaporation">
      <h4>{t("evaporation.title")}</h4>
      {worst ? <Worst worst={worst} /> : <p class="notice">{t("evaporation.over")}</p>}
      <Cautions cautions={cautionsAt(answer, "evaporation")} />
      {rates.length > 1 && <EvaporationPlot answer={answer} />}
      <p class="quiet small">{t("evaporation.source")}</p>
    </section>
  );
}
