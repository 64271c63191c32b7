/** What bars and patterns on the drawing of the check mean; kinds that are not there are left out. */
import type { Flatness } from "../../wire";
import { t } from "../../words";
import { sceneWorks, worstEdges } from "../common/flatnessLayers";

const LONG = 56; // px of a sample
const HIGH = 18;

function Bar({ kind, isBeyond }: { kind: "gap" | "hump" | "wedge"; isBeyond: boolean }) {
  return (
    <svg class="sheet" viewBox={`0 0 ${LONG} ${HIGH}`} aria-hidden="true">
      <g class="edges"><g class={`edge-bar ${kind}${isBeyond ? " beyond" : ""}`}><path class="bar" d={`M4 ${HIGH / 2}H${LONG - 4}`} /></g></g>
    </svg>
  );
}

export function EdgeKey({ flatness }: { flatness: Flatness }) {
  const edges = worstEdges(flatness);
  const kinds = (["gap", "hump"] as const).filter((kind) => edges.some((edge) => edge.kind === kind));
  return (
    <ul class="joints-key" data-testid="edges-key">
      {kinds.map((kind) => <li key={kind}><Bar kind={kind} isBeyond={false} /><span>{t(`checking.key.${kind}`)}</span></li>)}
      {flatness.gaps.length > 0 && <li><Bar kind="wedge" isBeyond={false} /><span>{t("checking.key.wedge")}</span></li>}
      {flatness.verdict === "beyond" && <li><Bar kind="gap" isBeyond /><span>{t("checking.key.beyond")}</span></li>}
    </ul>
  );
}

export function WorkKey({ flatness }: { flatness: Flatness }) {
  const works = sceneWorks(flatness);
  if (works.length === 0) return <p class="quiet">{t("checking.no_work")}</p>;
  return <p class="quiet">{t("checking.key.work")}</p>;
}
