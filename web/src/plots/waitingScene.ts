/** The waiting as it is drawn: where each moment, temperature and age comes to lie. Geometry alone, in px. */
import type { Reader } from "../units";
import type { WaitingAnswer } from "../wire";
import { roundTicks, timeTicks, type TimeTick } from "./ticks";

type Curve = WaitingAnswer["curve"];
type CurvePoint = Curve[number];
export type Spell = WaitingAnswer["spells"][number];
export type Countdown = WaitingAnswer["countdown"][number];
export type PlotPlace = readonly [number, number];

export const FROST_C = 0;
export const HEAT_C = 38;
const LEFT = 44;
const RIGHT = 10;
const HEAD = 22;
const SPELL_ROW = 18;
const NAME = 18; // over a panel, for its name
const GAP = 30; // between the panels: the lower one's name stands there
export const LANE = 30;
const FOOT = 24;
const LABEL_WIDTH = 58; // px that the label of a time takes
const MARKS_UP = 5;
const HOUR_MS = 3_600_000;
const LEAST_SPAN_C = 8; // a steady temperature is not drawn as a leap

export interface Panel {
  readonly top: number;
  readonly bottom: number;
  readonly ticks: readonly number[];
  /** px of a figure in the person's units. */
  readonly y: (value: number) => number;
}

/** A stretch of a line that is all measured, or all foretold. */
export interface Run {
  readonly measured: boolean;
  readonly points: readonly PlotPlace[];
}

export interface Lane {
  readonly of: Countdown;
  readonly y: number;
  readonly early: number;
  readonly likely: number;
  readonly late: number;
  /** Where the line of the age has what the milestone needs; null beyond the drawn time. */
  readonly needs: PlotPlace | null;
}

export interface SpellBar {
  readonly of: Spell;
  readonly from: number;
  readonly to: number;
  readonly y: number;
  /** Of its kind: it bears the name. */
  readonly isLast: boolean;
}

export interface WaitingScene {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly x: (ms: number) => number;
  readonly times: readonly TimeTick[];
  readonly temperature: Panel;
  readonly maturity: Panel;
  readonly warmth: readonly Run[];
  readonly ages: readonly Run[];
  readonly spells: readonly SpellBar[];
  readonly lanes: readonly Lane[];
  readonly lanesTop: number;
  /** Null outside the drawn time. */
  readonly now: number | null;
}

export function shownTemperature(celsius: number, { units }: Pick<Reader, "units">): number {
  return units === "imperial" ? (celsius * 9) / 5 + 32 : celsius;
}

/** Null where nothing can be drawn: less than two moments, or nothing placed and no temperature known, so that no moment is one. */
export function waitingScene(answer: WaitingAnswer, width: number, reader: Pick<Reader, "units">): WaitingScene | null {
  const windows = answer.countdown.filter((one): one is Countdown & { likely: string } => one.likely !== null);
  const [from, to] = drawnTime(answer, windows);
  const curve = answer.curve.filter(({ at }) => Date.parse(at) <= to);
  if (curve.length < 2 || !(to > from) || (answer.placed_at === null && answer.celsius_now === null)) return null;
  const [left, right] = [LEFT, width - RIGHT];
  const x = (ms: number) => left + ((ms - from) / (to - from)) * (right - left);
  const spells = spellBars(answer.spells, from, to, x);
  const head = HEAD + SPELL_ROW * new Set(answer.spells.map(({ kind }) => kind)).size + NAME;
  const tall = Math.min(190, Math.max(104, width * 0.24));
  const temperature = panel(head, head + tall, spanOf(curve.map(({ celsius }) => shownTemperature(celsius, reader)), LEAST_SPAN_C));
  const maturity = panel(temperature.bottom + GAP, temperature.bottom + GAP + tall, spanOf([0, ...curve.map((point) => gathered(answer, point))], 1));
  const lanesTop = maturity.bottom + GAP;
  const now = Date.parse(answer.now);
  const warmth = runsOf(curve, (point) => [x(Date.parse(point.at)), temperature.y(shownTemperature(point.celsius, reader))]);
  const place = (point: CurvePoint): PlotPlace => [x(Date.parse(point.at)), maturity.y(gathered(answer, point))];
  return {
    width, left, right, x, times: timeTicks(from, to, Math.max(2, Math.floor((right - left) / LABEL_WIDTH))), temperature, maturity, warmth, ages: runsOf(curve, place), spells,
    lanes: windows.map((of, index) => laneOf(of, lanesTop + index * LANE, x, (ms) => ageAt(answer, ms), maturity)), lanesTop,
    height: lanesTop + windows.length * LANE + FOOT, now: now >= from && now <= to ? x(now) : null,
  };
}

const BEYOND = 0.08; // of the time until the last window's end: that much of what follows is drawn

/** From the first moment of the curve to the end of the last window: a bed that is looked at months later is drawn no longer. */
function drawnTime({ curve }: WaitingAnswer, windows: readonly Countdown[]): readonly [number, number] {
  const [first, last] = [Date.parse(curve[0]?.at ?? ""), Date.parse(curve.at(-1)?.at ?? "")];
  const ends = windows.flatMap(({ likely, late }) => { const end = late ?? likely; return end === null ? [] : [Date.parse(end)]; });
  if (ends.length === 0) return [first, last];
  const end = Math.max(...ends);
  return [first, Math.max(end, Math.min(last, end + (end - first) * BEYOND))];
}

/** What the method counts by. */
export function gathered({ method }: Pick<WaitingAnswer, "method">, { age, factor }: Pick<CurvePoint, "age" | "factor">): number {
  return method === "temperature_time" ? factor : age;
}

/** What is gathered at a moment, straight between two points of the curve; null outside it. */
export function ageAt(answer: Pick<WaitingAnswer, "method" | "curve">, ms: number): number | null {
  const after = answer.curve.findIndex(({ at }) => Date.parse(at) >= ms);
  const [a, b] = [answer.curve[after - 1], answer.curve[after]];
  if (b && Date.parse(b.at) === ms) return gathered(answer, b);
  if (!a || !b) return null;
  const share = (ms - Date.parse(a.at)) / (Date.parse(b.at) - Date.parse(a.at));
  return gathered(answer, a) + share * (gathered(answer, b) - gathered(answer, a));
}

function spanOf(values: readonly number[], least: number): readonly [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const short = Math.max(0, least - (high - low)) / 2;
  return low === 0 ? [0, high + 2 * short] : [low - short, high + short];
}

function panel(top: number, bottom: number, [low, high]: readonly [number, number]): Panel {
  const ticks = roundTicks(low, high, MARKS_UP);
  const [first = 0, last = 1] = [ticks[0], ticks.at(-1)];
  return { top, bottom, ticks, y: (value) => bottom - ((value - first) / (last - first)) * (bottom - top) };
}

/** A line from point to point is measured where both its ends are. */
function runsOf(curve: Curve, place: (point: CurvePoint) => PlotPlace): readonly Run[] {
  const runs: { measured: boolean; points: PlotPlace[] }[] = [];
  curve.forEach((point, index) => {
    const before = curve[index - 1];
    if (!before) return;
    const measured = point.measured && before.measured;
    const last = runs.at(-1);
    if (last?.measured === measured) last.points.push(place(point));
    else runs.push({ measured, points: [place(before), place(point)] });
  });
  return runs;
}

function laneOf(of: Countdown & { likely: string }, y: number, x: (ms: number) => number, age: (ms: number) => number | null, maturity: Panel): Lane {
  const likely = Date.parse(of.likely);
  const needed = age(likely);
  const at = (moment: string | null) => x(moment === null ? likely : Date.parse(moment));
  return { of, y, early: at(of.early), likely: x(likely), late: at(of.late), needs: needed === null ? null : [x(likely), maturity.y(needed)] };
}

/** Each kind has a row of its own; what lies outside the drawn time is cut off. */
function spellBars(spells: readonly Spell[], from: number, to: number, x: (ms: number) => number): readonly SpellBar[] {
  const kinds = [...new Set(spells.map(({ kind }) => kind))];
  const last = new Map(spells.map((spell) => [spell.kind, spell]));
  return spells.flatMap((of) => {
    const [start, end] = [Math.max(from, Date.parse(of.from)), Math.min(to, Date.parse(of.to))];
    return end < start ? [] : [{ of, from: x(start), to: x(end), y: HEAD + SPELL_ROW * (kinds.indexOf(of.kind) + 0.5), isLast: last.get(of.kind) === of }];
  });
}

/** Points of the curve about `step` hours apart, for a table: the first, the last, and what lies between. */
export function tablePoints(curve: Curve, most: number): Curve {
  const [first, last] = [curve[0], curve.at(-1)];
  if (!first || !last) return [];
  const step = Math.max(1, Math.ceil((Date.parse(last.at) - Date.parse(first.at)) / HOUR_MS / most)) * HOUR_MS;
  let next = Date.parse(first.at);
  return curve.filter((point) => {
    const at = Date.parse(point.at);
    if (at < next && point !== last) return false;
    next = at + step;
    return true;
  });
}
