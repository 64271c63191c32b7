/** What the bed weighs on the floor, bare and tiled, and what stands stacked on it before. No floor is judged here. */
import { loadText, massText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t, told } from "../../words";
import { Figure } from "../common/Figure";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";

type Allowance = Plan["bed"]["allowances"][number];

/** By how much bed and covering pass what is allowed, on average or only where they are thickest. */
function passedText({ exceeded_by_mean: mean, exceeded_by_max: worst }: Allowance): string {
  return mean === null ? t("load.passed_at_worst", { worst: worst ?? 0 }) : t("load.passed", { mean, worst: worst ?? mean });
}

function Allowances({ plan }: { plan: Plan }) {
  const { allowances } = plan.bed;
  const passed = allowances.filter((one) => one.exceeded_by_mean !== null || one.exceeded_by_max !== null);
  if (passed.length === 0) return null;
  return (
    <>
      {passed.map((one) => (
        <Figure
          key={one.code} label={told("allowance", one.code, {}, one.code)} value={loadText(one.limit_kg_m2, reader.value)} note={passedText(one)}
          plan={plan} path={`bed.allowances[${allowances.indexOf(one)}]`}
        />
      ))}
      <p class="quiet small" data-testid="turn-to">{[...new Set(passed.map((one) => told("turn_to", one.turn_to, {}, one.turn_to)))].join(" ")}</p>
    </>
  );
}

function Stacked({ plan }: { plan: Plan }) {
  const { stacked } = plan.bed;
  if (stacked.bags === 0) return null;
  const where = t("load.stacked_more", { bags: stacked.bags, area: stacked.area, sand: stacked.sand_mass });
  return <Figure label={t("load.stacked")} value={loadText(stacked.load, reader.value)} note={where} plan={plan} path="bed.stacked" />;
}

export function LoadSection({ plan }: { plan: Plan }) {
  const { load, mass } = plan.bed;
  return (
    <section class="stack tight" data-testid="load">
      <h3>{t("load.title")}</h3>
      <div class="figures one">
        <Figure label={t("load.mean")} value={loadText(load.total_mean, reader.value)} note={t("load.bare", { load: load.mean })} plan={plan} path="bed.load.total_mean" />
        <Figure label={t("load.worst")} value={loadText(load.total_max, reader.value)} note={t("load.bare", { load: load.max })} plan={plan} path="bed.load.total_max" />
        <Figure label={t("load.room")} value={massText(load.total_mass, reader.value)} note={t("load.bare_mass", { mass })} plan={plan} path="bed.load.total_mass" />
        <Allowances plan={plan} />
        <Stacked plan={plan} />
      </div>
      <p class="quiet small">{t("load.no_verdict")}</p>
      <Cautions cautions={cautionsAt(plan, "bed.load")} />
    </section>
  );
}
