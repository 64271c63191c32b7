/** From the subfloor up, layer by layer, the uppermost first, as it lies. */
import { depthText } from "../../units";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import type { Designed } from "./effects";

type Layer = Designed["bed"]["build_up"][number];

function thicknessText({ least, mean, most }: Layer): string {
  if (least === most) return depthText(mean, reader.value);
  return t("build_up.uneven", { least, mean, most });
}

export function BuildUp({ now }: { now: Designed }) {
  const layers = now.bed.build_up.map((layer, n) => ({ layer, path: `bed.build_up[${n}]` }));
  return (
    <section class="stack tight" data-testid="build-up">
      <h3>{t("build_up.title")}</h3>
      <ol class="layers">
        {layers.reverse().map(({ layer, path }) => (
          <li key={layer.layer} class={`layer of-${layer.layer}`}><Figure label={t(`layer_of.${layer.layer}`)} value={thicknessText(layer)} plan={now} path={path} /></li>
        ))}
      </ol>
    </section>
  );
}
