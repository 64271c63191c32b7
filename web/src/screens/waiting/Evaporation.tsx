/** How fast a wet surface dries, with its doubt, against the threshold. */
import { EvaporationPlot } from "../../plots/EvaporationPlot";
import type { WaitingAnswer } from "../../wire";
import { rateText } from "../../units";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";

type Rate = WaitingAnswer["evaporation"][number];

/** The fastest from a moment (ms) on; null where all is past. */
export function fastestAhead(rates: readonly Rate[], now: number): Rate | null {
  const ahead = rates.filter(({ at }) => Date.parse(at) >= now);
  return ahead.reduce<Rate | null>((most, one) => (most === null || one.rate > most.rate ? one : most), null);
}

/** The engine explains the fastest of all: where that is past, the one ahead stands without. */
function Worst({ answer, worst }: { answer: WaitingAnswer; worst: Rate }) {
  const isOfAll = answer.evaporation.every(({ rate }) => rate <= worst.rate);
  return (
    <div class={`evaporation-worst ${worst.level}`} data-testid="evaporation-worst" data-level={worst.level}>
      <Figure label={t("evaporation.worst", { at: worst.at })} value={rateText(worst.rate, reader.value)} note={t("evaporation.band", { low: worst.low, high: worst.high })} plan={answer} path={isOfAll ? "evaporation" : "evaporation_ahead"} />
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
      {worst ? <Worst answer={answer} worst={worst} /> : <p class="notice">{t("evaporation.over")}</p>}
      <Cautions cautions={cautionsAt(answer, "evaporation")} />
      {rates.length > 1 && <EvaporationPlot answer={answer} />}
      <p class="quiet small">{t("evaporation.source")}</p>
    </section>
  );
}
