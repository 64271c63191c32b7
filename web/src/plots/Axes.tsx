/** What every plot over time rests on: its frame, its marks, the hatches for what harms. */
import { clockHourText, dateText, dayText, numberText } from "../units";
import { reader } from "../words";
import type { TimeTick } from "./ticks";
import type { Panel } from "./waitingScene";

interface AxesScene {
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly x: (ms: number) => number;
  readonly times: readonly TimeTick[];
}

const FOOT = 22; // px under the plot, for the labels of its times
const HALF_LABEL = 22;

/** Hatches that differ in their lean, so that they are told apart without colour. */
export function Stripes() {
  return (
    <defs>
      <pattern id="stripes-frost" width={8} height={8} patternUnits="userSpaceOnUse"><path class="stripe frost" d="M-2 6L6 -2M2 10L10 2" /></pattern>
      <pattern id="stripes-heat" width={8} height={8} patternUnits="userSpaceOnUse"><path class="stripe heat" d="M-2 2L6 10M2 -2L10 6" /></pattern>
    </defs>
  );
}

const WEEKS_MS = 14 * 86_400_000; // from here on a day is told by its month, else by its name in the week

function timeText({ at, isMidnight }: TimeTick, isLong: boolean): string {
  if (!isMidnight) return clockHourText(at, reader.value);
  return isLong ? dateText(at, reader.value) : dayText(at, reader.value);
}

/** Lines through all panels at each mark of time, midnights stronger, and what time it is under them. */
export function Axes({ scene }: { scene: AxesScene }) {
  const { height, left, right, x, times } = scene;
  const isLong = (times.at(-1)?.at ?? 0) - (times[0]?.at ?? 0) > WEEKS_MS;
  return (
    <g class="axes">
      {times.map((tick) => (
        <g key={tick.at} class={tick.isMidnight ? "tick midnight" : "tick"}>
          <path d={`M${x(tick.at)} 16V${height - FOOT}`} />
          <text x={Math.min(right - HALF_LABEL, Math.max(left + HALF_LABEL - 6, x(tick.at)))} y={height - 7} text-anchor="middle">{timeText(tick, isLong)}</text>
        </g>
      ))}
    </g>
  );
}

/** A panel's box with its figures at the side. */
export function PanelFrame({ panel, scene }: { panel: Panel; scene: Pick<AxesScene, "left" | "right"> }) {
  const { left, right } = scene;
  return (
    <g class="frame">
      {panel.ticks.map((value) => (
        <g key={value}>
          <path d={`M${left} ${panel.y(value)}H${right}`} />
          <text x={left - 5} y={panel.y(value) + 4} text-anchor="end">{numberText(value, 2, reader.value.language)}</text>
        </g>
      ))}
    </g>
  );
}
