/** How fast a wet surface dries over time: the rate, its doubt as a band, the threshold; with the same in figures. */
import { useState } from "preact/hooks";
import { useSize } from "../drawing/useSize";
import { pathOf } from "../drawing/Ground";
import { rateText, shortMoment, shownRate } from "../units";
import type { WaitingAnswer } from "../wire";
import { reader, t } from "../words";
import { Axes, PanelFrame } from "./Axes";
import { evaporationScene, THRESHOLD, type EvaporationScene } from "./evaporationScene";
import type { PlotPlace } from "./waitingScene";

const itself = (place: PlotPlace) => place;

function unitText(): string {
  return reader.value.units === "imperial" ? "lb/(ft²·h)" : "kg/(m²·h)";
}

function Picture({ answer, scene }: { answer: WaitingAnswer; scene: EvaporationScene }) {
  const { panel, left, right } = scene;
  const edge = panel.y(shownRate(THRESHOLD, reader.value));
  const rates = answer.evaporation;
  const spoken = t("plot.rate_spoken", { highest: Math.max(...rates.map(({ rate }) => rate)), from: rates[0]?.at, to: rates.at(-1)?.at });
  return (
    <svg class="plot" viewBox={`0 0 ${scene.width} ${scene.height}`} width={scene.width} height={scene.height} role="img" aria-label={spoken} data-testid="evaporation-picture">
      <Axes scene={scene} />
      <PanelFrame panel={panel} scene={scene} />
      <path class="band" d={pathOf([...scene.high, ...[...scene.low].reverse()], itself)} />
      {scene.runs.map(({ measured, points }, index) => <path key={index} class={`line warmth${measured ? "" : " foretold"}`} d={pathOf(points, itself, false)} />)}
      <g class="heat"><path d={`M${left} ${edge}H${right}`} /><text x={right - 4} y={edge - 5} text-anchor="end">{t(reader.value.units === "imperial" ? "evaporation.threshold_imperial" : "evaporation.threshold")}</text></g>
      <text class="panel-name" x={left} y={panel.top - 7}>{t("plot.rate", { unit: unitText() })}</text>
    </svg>
  );
}

export function EvaporationTable({ answer }: { answer: WaitingAnswer }) {
  return (
    <table class="shims plot-table" data-testid="evaporation-figures">
      <thead><tr><th scope="col">{t("plot.table_when")}</th><th scope="col">{t("plot.table_rate")}</th><th scope="col">{t("plot.table_band")}</th></tr></thead>
      <tbody>
        {answer.evaporation.map(({ at, rate, low, high }) => (
          <tr key={at}><th scope="row">{shortMoment(at, reader.value)}</th><td>{rateText(rate, reader.value)}</td><td>{rateText(low, reader.value)} – {rateText(high, reader.value)}</td></tr>
        ))}
      </tbody>
    </table>
  );
}

export function EvaporationPlot({ answer, paper }: { answer: WaitingAnswer; paper?: { readonly width: number } }) {
  const [box, size] = useSize();
  const [isTable, setTable] = useState(false);
  const scene = evaporationScene(answer, paper?.width ?? size.width, reader.value);
  if (scene === null) return null;
  return (
    <figure class="plot-figure" aria-label={t("evaporation.title")} data-testid="evaporation-plot">
      <div class="plot-box" ref={box}><Picture answer={answer} scene={scene} /></div>
      {!paper && <button type="button" class="button wide" data-testid="evaporation-table" aria-expanded={isTable} onClick={() => setTable(!isTable)}>{t("plot.table")}</button>}
      {isTable && <EvaporationTable answer={answer} />}
    </figure>
  );
}
