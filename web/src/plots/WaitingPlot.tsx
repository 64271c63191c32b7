/**
 * The waiting as a picture: temperature, age and the windows of the milestones over one line of time.
 *
 *     <WaitingPlot answer={answer} />                                on a screen: as wide as its box, with its table one tap away
 *     <WaitingPlot answer={answer} paper={{ width: 680 }} />         on paper: of a given width in px, without buttons
 *     <WaitingTable answer={answer} />                               the same in figures, for paper
 *
 * `answer` is the engine's answer to the question `waiting` (kept whole in a signed record too). Measured lines are drawn
 * through, foretold or assumed ones in dashes; bands and windows carry their names, so that no colour is needed to read it.
 */
import { useState } from "preact/hooks";
import { useSize } from "../drawing/useSize";
import { pathOf } from "../drawing/Ground";
import type { WaitingAnswer } from "../wire";
import { reader, t, told } from "../words";
import { Axes, PanelFrame, Stripes } from "./Axes";
import { FROST_C, HEAT_C, LANE, shownTemperature, waitingScene, type Lane, type Panel, type PlotPlace, type Run, type SpellBar, type WaitingScene } from "./waitingScene";
import { WaitingTable } from "./WaitingTable";

const itself = (place: PlotPlace) => place;
const LETTER_PX = 7; // about how wide a letter of a label is
const EDGE = 2; // beside the bars nothing stands at the edge
const BAR = 12;

interface WaitingPlotProps {
  readonly answer: WaitingAnswer;
  readonly paper?: { readonly width: number };
}

function Runs({ runs, kind }: { runs: readonly Run[]; kind: string }) {
  return <>{runs.map(({ measured, points }, index) => <path key={index} class={`line ${kind}${measured ? "" : " foretold"}`} d={pathOf(points, itself, false)} />)}</>;
}

/** The part of the panel beyond a temperature, hatched, with its name. */
function Beyond({ scene, celsius, below, name }: { scene: WaitingScene; celsius: number; below: boolean; name: string }) {
  const { temperature, left, right } = scene;
  const edge = Math.min(temperature.bottom, Math.max(temperature.top, temperature.y(shownTemperature(celsius, reader.value))));
  const [top, bottom] = below ? [edge, temperature.bottom] : [temperature.top, edge];
  if (bottom - top < 1) return null;
  return (
    <g class={below ? "frost" : "heat"}>
      <rect x={left} y={top} width={right - left} height={bottom - top} fill={`url(#stripes-${below ? "frost" : "heat"})`} />
      <path d={`M${left} ${edge}H${right}`} />
      <text x={right - 4} y={below ? bottom - 5 : top + 13} text-anchor="end">{name}</text>
    </g>
  );
}

/** A label beside a bar: after it where there is room, else before it; over the bar where neither has any. */
function labelPlace(text: string, from: number, to: number, { right }: WaitingScene): { readonly x: number; readonly anchor: "start" | "end" } {
  const wide = text.length * LETTER_PX + 8;
  if (to + wide <= right) return { x: to + 7, anchor: "start" };
  return from - wide >= EDGE ? { x: from - 7, anchor: "end" } : { x: right - 2, anchor: "end" };
}

function Spells({ scene }: { scene: WaitingScene }) {
  const bar = ({ of, from, to, y, isLast }: SpellBar, index: number) => {
    const name = isLast ? t(`spell_short.${of.kind}`) : "";
    const wide = Math.max(4, to - from);
    const { x, anchor } = labelPlace(name, from, from + wide, scene);
    return (
      <g key={index} class={`spell ${of.kind}`}>
        <rect x={from} y={y - 4} width={wide} height={9} fill="url(#stripes-heat)" />
        <text x={x} y={y + 5} text-anchor={anchor}>{name}</text>
      </g>
    );
  };
  return <>{scene.spells.map(bar)}</>;
}

function WindowBar({ lane, scene }: { lane: Lane; scene: WaitingScene }) {
  const { of, early, likely, late, needs } = lane;
  const y = lane.y + LANE / 2;
  const name = told("milestone", of.milestone, {}, of.milestone);
  const { x, anchor } = labelPlace(name, early, late, scene);
  return (
    <g class={`window ${of.state}`} data-testid={`plot-window-${of.milestone}`}>
      {needs && <path class="drop" d={`M${needs[0]} ${needs[1]}V${y}`} />}
      <rect x={early} y={y - BAR / 2} width={Math.max(3, late - early)} height={BAR} />
      <path class="likely" d={`M${likely} ${y - BAR / 2 - 3}V${y + BAR / 2 + 3}`} />
      <text x={x} y={y + 4.5} text-anchor={anchor}>{of.state === "ticked" ? `\u2713 ${name}` : name}</text>
      {needs && <circle class="needs" cx={needs[0]} cy={needs[1]} r={4} />}
    </g>
  );
}

function NowLine({ scene }: { scene: WaitingScene }) {
  if (scene.now === null) return null;
  const isLate = scene.now > scene.right - 40;
  return (
    <g class="now" data-testid="plot-now">
      <path d={`M${scene.now} 14V${scene.height - 22}`} />
      <text x={isLate ? scene.now - 4 : scene.now + 4} y={12} text-anchor={isLate ? "end" : "start"}>{t("plot.now")}</text>
    </g>
  );
}

function panelName(answer: WaitingAnswer): string {
  return answer.method === "temperature_time" ? t("plot.factor") : t("plot.age");
}

function Temperatures({ scene }: { scene: WaitingScene }) {
  const { temperature } = scene;
  return (
    <>
      <PanelFrame panel={temperature} scene={scene} />
      <Beyond scene={scene} celsius={FROST_C} below name={t("plot.frost")} />
      <Beyond scene={scene} celsius={HEAT_C} below={false} name={t("plot.heat")} />
      <Runs runs={scene.warmth} kind="warmth" />
    </>
  );
}

function PanelName({ panel, scene, name }: { panel: Panel; scene: WaitingScene; name: string }) {
  return <text class="panel-name" x={scene.left} y={panel.top - 7}>{name}</text>;
}

function spokenOf({ curve }: WaitingAnswer): string {
  const celsius = curve.map((point) => point.celsius);
  return t("plot.spoken", { lowest: Math.min(...celsius), highest: Math.max(...celsius), from: curve[0]?.at, to: curve.at(-1)?.at });
}

/** The picture alone. */
function Picture({ answer, scene }: { answer: WaitingAnswer; scene: WaitingScene }) {
  const unit = reader.value.units === "imperial" ? "°F" : "°C";
  return (
    <svg class="plot" viewBox={`0 0 ${scene.width} ${scene.height}`} width={scene.width} height={scene.height} role="img" aria-label={spokenOf(answer)} data-testid="waiting-picture">
      <Stripes />
      <Axes scene={scene} />
      <Temperatures scene={scene} />
      <PanelFrame panel={scene.maturity} scene={scene} />
      <Runs runs={scene.ages} kind="age" />
      <NowLine scene={scene} />
      {scene.lanes.map((lane) => <WindowBar key={lane.of.milestone} lane={lane} scene={scene} />)}
      <Spells scene={scene} />
      <PanelName panel={scene.temperature} scene={scene} name={t("plot.temperature", { unit })} />
      <PanelName panel={scene.maturity} scene={scene} name={panelName(answer)} />
    </svg>
  );
}

/** What the kinds of lines mean, each with a piece of it. */
function Key() {
  return (
    <ul class="plot-key">
      <li><svg class="plot" width={34} height={12} aria-hidden="true"><path class="line age" d="M1 6H33" /></svg>{t("plot.measured")}</li>
      <li><svg class="plot" width={34} height={12} aria-hidden="true"><path class="line age foretold" d="M1 6H33" /></svg>{t("plot.foretold")}</li>
      <li><svg class="plot" width={34} height={12} aria-hidden="true"><circle class="needs" cx={17} cy={6} r={4} /></svg>{t("plot.needed")}</li>
      <li><svg class="plot" width={34} height={16} aria-hidden="true"><g class="window waiting"><rect x={1} y={3} width={32} height={10} /><path class="likely" d="M15 0V16" /></g></svg>{t("plot.window")}</li>
    </ul>
  );
}

export function WaitingPlot({ answer, paper }: WaitingPlotProps) {
  const [box, size] = useSize();
  const [isTable, setTable] = useState(false);
  const scene = waitingScene(answer, paper?.width ?? size.width, reader.value);
  return (
    <figure class="plot-figure" aria-label={t("plot.title")} data-testid="waiting-plot">
      <div class="plot-box" ref={box}>{scene ? <Picture answer={answer} scene={scene} /> : <p class="notice">{t("plot.none")}</p>}</div>
      {scene && <Key />}
      {scene && !paper && <button type="button" class="button wide" data-testid="plot-table" aria-expanded={isTable} onClick={() => setTable(!isTable)}>{t("plot.table")}</button>}
      {scene && isTable && <WaitingTable answer={answer} />}
    </figure>
  );
}
