/** A reading of the level as it is being entered: where it lies, what it shows, and what that says of its two ends. */
import { distance, type Place } from "../../../drawing/camera";
import type { NewRailCheck } from "../../../state";
import type { Fields, Rail, Truing, Typed } from "../../../wire";

export type End = "from" | "to";
/** bubble: how far out over a length, and which end is high · gap: what lies under the end that had to be lifted. */
export type Way = "bubble" | "gap";

export interface Entered {
  /** The reading that is corrected; empty for a new one. */
  readonly id: string;
  readonly rail: string;
  /** The second rail where the level lies across; empty along one. */
  readonly railTo: string;
  readonly from: number;
  readonly to: number;
  readonly level: string;
  /** Length that a bubble's reading is over; null for that of the level. */
  readonly over: number | null;
  readonly way: Way;
  /** The end a person named: the high one, or the one with the gap. */
  readonly end: End | "";
  readonly off: number | null;
  readonly back: number | null;
  /** Which of the two is typed now: as first laid, or turned end for end. */
  readonly step: "off" | "back";
  /** What was typed for either. */
  readonly typed: Typed;
}

export const NOTHING: Entered = { id: "", rail: "", railTo: "", from: 0, to: 0, level: "", over: null, way: "bubble", end: "", off: null, back: null, step: "off", typed: {} };

export function railLength({ from, to }: Pick<Rail, "from" | "to">): number {
  return distance(from, to);
}

function along({ from, to }: Rail, at: number): Place {
  const share = at / (railLength({ from, to }) || 1);
  return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
}

function within(value: number, most: number): number {
  return Math.min(Math.max(value, 0), Math.max(most, 0));
}

/** The place on a rail that lies nearest, from its beginning. */
export function nearestOn(rail: Rail, [x, y]: Place): number {
  const long = railLength(rail) || 1;
  const [ux, uy] = [(rail.to[0] - rail.from[0]) / long, (rail.to[1] - rail.from[1]) / long];
  return within((x - rail.from[0]) * ux + (y - rail.from[1]) * uy, long);
}

/** From where to where the strip lies at a place: of several lies the one whose middle is nearest. */
export function lieAt(rail: Rail, at: number): { readonly from: number; readonly to: number } {
  if (rail.settings.length <= 1) return { from: 0, to: railLength(rail) };
  const far = ({ from, to }: { readonly from: number; readonly to: number }) => Math.abs((from + to) / 2 - at);
  return rail.settings.reduce((best, one) => (far(one) < far(best) ? one : best));
}

/** A level of `span` laid along a rail with its middle at `at`, as far as the strip there goes: it tells of one line. */
export function laidAlong(rail: Rail, at: number, span: number): Pick<Entered, "rail" | "railTo" | "from" | "to"> {
  const lie = lieAt(rail, at);
  const reach = Math.min(span, lie.to - lie.from);
  const from = lie.from + within(at - lie.from - reach / 2, lie.to - lie.from - reach);
  return { rail: rail.id, railTo: "", from, to: from + reach };
}

/** Across from where it lies on the first rail to the place on the second that lies nearest. */
export function laidAcross(first: Rail, at: number, second: Rail, to = nearestOn(second, along(first, at))): Pick<Entered, "rail" | "railTo" | "from" | "to"> {
  return { rail: first.id, railTo: second.id, from: at, to };
}

/** The reading that the engine would have next. */
export function laidAsAsked({ rail, rails, from, to }: NonNullable<Truing["next_check"]>): Pick<Entered, "rail" | "railTo" | "from" | "to"> {
  return { rail: rails?.[0] ?? rail ?? "", railTo: rails?.[1] ?? "", from, to };
}

/** After a tap on a rail at `at`: the level lies along it, or across to it from the rail it lay on. */
export function laidByTap(entered: Entered, rails: readonly Rail[], rail: Rail, at: number, span: number): Entered {
  const first = rails.find(({ id }) => id === entered.rail);
  if (!first || rail.id === first.id) return { ...entered, ...laidAlong(rail, at, span) };
  const middle = entered.railTo === "" ? (entered.from + entered.to) / 2 : entered.from;
  return { ...entered, ...laidAcross(first, middle, rail, at) };
}

/** Both ends of the level in the room; null where a rail is not there (any more). */
export function endsOf(entered: Pick<Entered, "rail" | "railTo" | "from" | "to">, rails: readonly Rail[]): readonly [Place, Place] | null {
  const first = rails.find(({ id }) => id === entered.rail);
  const second = rails.find(({ id }) => id === (entered.railTo || entered.rail));
  return first && second ? [along(first, entered.from), along(second, entered.to)] : null;
}

export type WrongPlace = "no_rail" | "beyond" | "same_place";

const LEAST = 100; // mm between the ends: nearer together a level tells nothing

/** What is wrong with where the level lies; null where nothing is. */
export function wrongPlace(entered: Entered, rails: readonly Rail[]): WrongPlace | null {
  const ends = endsOf(entered, rails);
  if (!ends) return "no_rail";
  const longOf = (id: string) => { const rail = rails.find((one) => one.id === id); return rail ? railLength(rail) : 0; };
  const isOn = (at: number, id: string) => at >= 0 && at <= longOf(id) + 0.01;
  if (!isOn(entered.from, entered.rail) || !isOn(entered.to, entered.railTo || entered.rail)) return "beyond";
  return distance(...ends) < LEAST ? "same_place" : null;
}

/** The length that what was typed is over: a bubble's is the level's own, a gap's lies between the two ends. */
export function lengthOver(entered: Entered, rails: readonly Rail[], level: number): number {
  const ends = endsOf(entered, rails);
  if (entered.way === "bubble") return entered.over ?? level;
  return ends ? distance(...ends) : level;
}

const STEEPEST = 0.1; // a rail that is one in ten out was not read but mistyped

export function isTooMuch(amount: number, over: number): boolean {
  return amount > over * STEEPEST;
}

/**
 * What the level shows as the engine takes it: + where the `to` end is high. The end with a gap under it had to be lifted
 * until the bubble stood in the middle, so that end is the low one. Null while no end was named; 0 needs none.
 */
export function offFrom(amount: number, way: Way, end: End | ""): number | null {
  if (amount === 0) return 0;
  if (end === "") return null;
  const isToHigh = (end === "to") === (way === "bubble");
  return isToHigh ? amount : -amount;
}

/** The end that is high; null where neither is. */
export function highEnd(off: number): End | null {
  return off === 0 ? null : off > 0 ? "to" : "from";
}

/** What is kept of a reading that is whole; null while nothing was typed for it as first laid. */
export function checkFrom({ rail, railTo, from, to, level, off, back, typed }: Entered, over: number): NewRailCheck | null {
  if (off === null) return null;
  return { rail, rail_to: railTo === "" ? null : railTo, from, to, off, reversed_off: back, length: over, level, typed };
}

/** A kept reading as it is entered again. */
export function enteredFrom(id: string, fields: Fields<"rail_check">): Entered {
  const { rail, rail_to: railTo, from, to, level, length, off, reversed_off: back } = fields;
  return { ...NOTHING, id, rail: rail ?? "", railTo: railTo ?? "", from: from ?? 0, to: to ?? 0, level: level ?? "", over: length ?? null, off: off ?? null, back: back ?? null };
}
