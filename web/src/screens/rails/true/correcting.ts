/** What to raise or let down, rail by rail, in amounts that are set, with the mortar it takes. */
import type { Place } from "../../../drawing/camera";
import type { Move } from "../../../state";
import { depthText, inchesOnly, numberText } from "../../../units";
import type { Correction, Plan, Rail } from "../../../wire";
import { reader, t } from "../../../words";
import { arrowTo } from "./arrows";

const INCH = 25.4; // mm

/** How much an end is moved as it is told, mm: whole thirty-seconds of an inch, or whole millimetres. */
export function amountMm({ thirty_seconds: parts, millimetres }: Correction): number {
  return reader.value.units === "imperial" ? (parts * INCH) / 32 : millimetres;
}

/** The amount without its sign: up or down is said beside it. */
export function amountText(correction: Correction): string {
  const amount = Math.abs(amountMm(correction));
  return reader.value.units === "imperial" ? inchesOnly(amount, 32) : depthText(amount, reader.value);
}

export function railOf({ rails }: Pick<Plan, "rails">, id: string): Rail | undefined {
  return rails.find((rail) => rail.id === id);
}

/** The rails that no reading tells of yet. */
export function unreadIn({ truing }: Pick<Plan, "truing">): readonly string[] {
  return truing?.rails.filter(({ checks }) => checks === 0).map(({ rail }) => rail) ?? [];
}

/** Where the end to correct lies: the end station of the strip as it lies now; null for a rail that is not there. */
export function placeOf(plan: Pick<Plan, "rails">, { rail: id, station, end }: Pick<Correction, "rail" | "station" | "end">): Place | null {
  const rail = railOf(plan, id);
  return rail ? (rail.stations[station]?.at ?? rail[end]) : null;
}

/** Whether its strip is moved along a rail, so that it has to be said which lie is meant. */
export function hasMoves({ settings }: Pick<Rail, "settings">): boolean {
  return settings.length > 1;
}

/** Which end of its rail, as an arrow on the drawing. */
export function endArrow(rail: Rail, end: Correction["end"]): string {
  return end === "to" ? arrowTo(rail.from, rail.to) : arrowTo(rail.to, rail.from);
}

export interface ToCorrect {
  readonly rail: Rail;
  readonly lie: number;
  readonly corrections: readonly { readonly correction: Correction; readonly number: number }[];
}

/** What is to be done in the person's own units: what rounds to nothing there is left as it lies. */
export function isToDo(correction: Correction): boolean {
  return amountMm(correction) !== 0;
}

/** The corrections of each rail together, rails in the order that the worst of each has. */
export function byRail(plan: Pick<Plan, "rails" | "corrections">): readonly ToCorrect[] {
  const found = new Map<string, { readonly correction: Correction; readonly number: number }[]>();
  plan.corrections.forEach((correction, number) => isToDo(correction) && found.set(correction.rail, [...(found.get(correction.rail) ?? []), { correction, number }]));
  return [...found].flatMap(([id, corrections]) => {
    const rail = railOf(plan, id);
    const lie = corrections[0]?.correction.lie;
    return rail && lie !== undefined ? [{ rail, lie, corrections }] : [];
  });
}

/** How far each end of a rail's strip is moved where it is bedded anew as told, mm. */
export function movesOf({ rail, lie, corrections }: ToCorrect): Move {
  const moved = (end: Correction["end"]) => corrections.filter(({ correction }) => correction.end === end).reduce((sum, { correction }) => sum + amountMm(correction), 0);
  return { rail: rail.id, lie, from_raise: moved("from"), to_raise: moved("to") };
}

const HANDFUL = 0.25e-3; // m³ of damp mortar in a gloved hand: common practice, no source
const LITRE = 1e-3;
const CUBIC_INCH = 1.6387064e-5;

function volume(m3: number): string {
  const { units, language } = reader.value;
  if (units === "metric") return `${numberText(m3 / LITRE, m3 < LITRE ? 2 : 1, language)}\u202fL`;
  return `${numberText(m3 / CUBIC_INCH, 0, language)}\u202fin³`;
}

/** About how much mortar a correction takes, by volume and by the handful. */
export function mudText({ mortar }: Correction): string {
  const handfuls = Math.round(Math.abs(mortar) / HANDFUL);
  const values = { volume: volume(Math.abs(mortar)), handfuls };
  if (mortar < 0) return t(handfuls < 1 ? "truing.shave_little" : "truing.shave", values);
  return t(handfuls < 1 ? "truing.add_little" : "truing.add", values);
}
