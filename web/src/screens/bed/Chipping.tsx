/** Chip or raise: what bringing high spots down would save over the whole floor, and what must be chipped for it. */
import { areaText, depthText, hoursText, massText, volumeText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { moneyText } from "../common/money";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { placeText } from "../common/roomFigure";
import { LengthSetting } from "../common/Setting";
import { chipNumber } from "../common/topLayers";
import type { RoomView } from "../common/useRoom";

type Row = Plan["bed"]["chipping"][number];
type Best = NonNullable<Plan["bed"]["chip_plan"]>;

/** What is saved, or under a top that is given what more is needed. */
function savedText(volume: number): string {
  const text = volumeText(Math.abs(volume), reader.value);
  return t(volume < 0 ? "chip.needs" : "chip.saves", { volume: text });
}

function costText(cost: number, plan: Plan): string {
  const money = moneyText(Math.abs(cost), plan.quote.currency);
  return t(cost < 0 ? "chip.costs" : "chip.saves_money", { money });
}

function rowNote({ depth, area, saves_mass: mass, saves_cost: cost }: Row, plan: Plan): string {
  const told = t("chip.row", { depth, area, mass: Math.abs(mass) });
  return cost === null ? told : `${told} ${costText(cost, plan)}`;
}

function Rows({ plan }: { plan: Plan }) {
  return (
    <div class="figures one" data-testid="chip-rows">
      {plan.bed.chipping.map((row, index) => (
        <Figure
          key={row.id} label={t("chip.spot", { number: chipNumber(row.id), place: placeText(row.at) })} value={savedText(row.saves_volume)}
          note={rowNote(row, plan)} plan={plan} path={`bed.chipping[${index}]`}
        />
      ))}
    </div>
  );
}

function BestFigures({ best, plan }: { best: Best; plan: Plan }) {
  const path = (name: string) => `bed.chip_plan.${name}`;
  return (
    <div class="figures">
      <Figure label={t("chip.deep")} value={depthText(best.depth, reader.value)} plan={plan} path={path("depth")} />
      <Figure label={t("chip.area")} value={areaText(best.area, reader.value)} plan={plan} path={path("area")} />
      <Figure label={t(best.saves_volume < 0 ? "chip.mortar_more" : "chip.mortar")} value={volumeText(Math.abs(best.saves_volume), reader.value)} note={massText(Math.abs(best.saves_mass), reader.value)} plan={plan} path={path("saves_volume")} />
      <Figure label={t("chip.labour")} value={hoursText(best.labour_hours, reader.value)} plan={plan} path={path("labour_hours")} />
      {best.saves_cost !== null && <Figure label={t(best.saves_cost < 0 ? "chip.money_less" : "chip.money")} value={moneyText(Math.abs(best.saves_cost), plan.quote.currency)} plan={plan} path={path("saves_cost")} />}
    </div>
  );
}

function BestPlan({ best, plan }: { best: Best; plan: Plan }) {
  if (best.depth === 0) return <p class="notice" data-testid="chip-best">{t("chip.raise")}</p>;
  const spots = best.spots.map(chipNumber).join(", ");
  const isLowered = best.top_lower_by > 0;
  const isPriced = best.basis === "prices";
  return (
    <div class="stack tight" data-testid="chip-best">
      <p class="notice">{t(isLowered ? (isPriced ? "chip.best_lowered" : "chip.first_lowered") : "chip.best_given", { spots, depth: best.depth, lower: best.top_lower_by })}</p>
      <BestFigures best={best} plan={plan} />
      {isLowered && <p class="quiet small">{t(isPriced ? "chip.by_prices" : "chip.no_prices")}</p>}
      <p class="quiet small">{t("chip.yours")}</p>
    </div>
  );
}

/** Nothing where no spot stands out and nothing must be said of one. */
export function Chipping({ room, plan }: { room: RoomView; plan: Plan }) {
  const { chipping, chip_plan: best } = plan.bed;
  const cautions = cautionsAt(plan, "bed.chipping", "bed.chip_plan");
  if (chipping.length === 0 && cautions.length === 0) return null;
  return (
    <section class="stack tight" data-testid="chipping">
      <h3>{t("chip.title")}</h3>
      <Cautions cautions={cautions} />
      {best && <BestPlan best={best} plan={plan} />}
      {chipping.length > 0 && <Rows plan={plan} />}
      <LengthSetting room={room} name="bed.chip_depth" label={t("chip.most")} note={t("chip.most_more")} />
    </section>
  );
}
