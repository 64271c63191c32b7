/** Evaporation as it is drawn. Geometry alone, in px. */
import { shownRate, type Reader } from "../units";
import type { WaitingAnswer } from "../wire";
import { roundTicks, timeTicks, type TimeTick } from "./ticks";
import type { Panel, PlotPlace, Run } from "./waitingScene";

export const THRESHOLD = 1; // kg/(m²·h), what the engine holds a rate against
const LEFT = 44;
const RIGHT = 10;
const HEAD = 24;
const TALL = 110;
const FOOT = 24;
const LABEL_WIDTH = 58;
const MARKS_UP = 4;

export interface EvaporationScene {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly x: (ms: number) => number;
  readonly times: readonly TimeTick[];
  readonly panel: Panel;
  readonly low: readonly PlotPlace[];
  readonly high: readonly PlotPlace[];
  readonly runs: readonly Run[];
}

/** Null with less than two moments. */
export function evaporationScene({ evaporation }: Pick<WaitingAnswer, "evaporation">, width: number, reader: Pick<Reader, "units">): EvaporationScene | null {
  const [first, last] = [evaporation[0], evaporation.at(-1)];
  if (!first || !last || first.at === last.at) return null;
  const [from, to, left, right] = [Date.parse(first.at), Date.parse(last.at), LEFT, width - RIGHT];
  const x = (ms: number) => left + ((ms - from) / (to - from)) * (right - left);
  const ticks = roundTicks(0, shownRate(Math.max(THRESHOLD * 1.1, ...evaporation.map(({ high }) => high)), reader), MARKS_UP);
  const most = ticks.at(-1) ?? 1;
  const panel: Panel = { top: HEAD, bottom: HEAD + TALL, ticks, y: (value) => HEAD + TALL - (value / most) * TALL };
  const line = (of: "rate" | "low" | "high") => evaporation.map((row): PlotPlace => [x(Date.parse(row.at)), panel.y(shownRate(row[of], reader))]);
  const rates = line("rate");
  const runs = evaporation.slice(1).map((row, index): Run => ({ measured: !row.forecast && evaporation[index]?.forecast === false, points: rates.slice(index, index + 2) }));
  return { width, height: HEAD + TALL + FOOT, left, right, x, times: timeTicks(from, to, Math.max(2, Math.floor((right - left) / LABEL_WIDTH))), panel, low: line("low"), high: line("high"), runs };
}
