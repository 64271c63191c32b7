/** What the lay-out is: rails, stations, moves, the widest spacing, what is left to hand work, the mortar in the ramps. */
import { lengthText, numberText, volumeText } from "../../../units";
import type { Plan } from "../../../wire";
import { reader, t } from "../../../words";
import { Figure } from "../../common/Figure";
import { countsOf, explainedLayout } from "./explained";

function percentText(share: number): string {
  return `${numberText(share * 100, 1, reader.value.language)}\u202f%`;
}

export function LayoutFigures({ plan, reach }: { plan: Plan; reach: number }) {
  const counts = countsOf(plan);
  const own = explainedLayout(plan, counts, reach);
  const number = (count: number) => numberText(count, 0, reader.value.language);
  return (
    <div class="figures of-layout">
      <Figure label={t("lay.rails")} value={number(counts.rails)} plan={plan} path="layout.rails" explanation={own.rails} />
      <Figure label={t("lay.stations")} value={number(counts.stations)} plan={plan} path="layout.stations" explanation={own.stations} />
      <Figure label={t("lay.moves")} value={number(counts.moves)} plan={plan} path="layout.moves" explanation={own.moves} />
      <Figure
        label={t("lay.widest")} value={counts.widest === null ? t("none_yet") : lengthText(counts.widest, reader.value)}
        note={t("lay.reach", { reach })} plan={plan} path="layout.widest" explanation={own.widest}
      />
      <Figure label={t("lay.by_hand")} value={percentText(plan.hand_share)} plan={plan} path="hand_share" explanation={own.byHand} />
      <Figure label={t("lay.ramps")} value={volumeText(counts.ramps, reader.value)} plan={plan} path="layout.ramps" explanation={own.ramps} />
    </div>
  );
}
