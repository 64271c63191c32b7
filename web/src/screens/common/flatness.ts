/** The flatness of a room's bed as the plan tells it, and its figures in words: for every screen that shows some of it. */
import { feetInches, gapText as gapWords, inchesOnly, numberText } from "../../units";
import type { Flatness, FlatnessWork, Plan, StraightedgeCheck } from "../../wire";
import { reader, t } from "../../words";
import type { RoomView } from "./useRoom";

/** What is shown of the flatness of a bed. */
export interface FlatnessView {
  readonly flatness: Flatness;
  /** The plan it came with: that one explains its figures. */
  readonly plan: Plan;
  /** True while a newer one is worked out. */
  readonly isOld: boolean;
}

const kept = new Map<string, Plan>();

/**
 * The newest flatness there is of a room. A plan comes first without it and a moment later with it: until then the former
 * one stays, marked as such, so that nothing flickers. Null where there is none yet, or where the room has problems.
 */
export function flatnessOf({ id, plan, state }: RoomView): FlatnessView | null {
  if (!plan) {
    if (state.status === "problems") kept.delete(id);
    return null;
  }
  if (plan.flatness) kept.set(id, plan);
  else if (isWhole(plan)) kept.delete(id);
  const shown = kept.get(id);
  return shown?.flatness ? { flatness: shown.flatness, plan: shown, isOld: shown !== plan || state.status !== "ready" } : null;
}

/** Whether it came with everything: without the statistics it is the quick one, and the flatness follows too. */
function isWhole(plan: Plan): boolean {
  return plan.surface.statistics !== null;
}

/** The verdict to tell in short, of this plan or, until it has one, of the former. */
export function knownVerdict(room: string, plan: Plan): Flatness["verdict"] | null {
  return (plan.flatness ?? kept.get(room)?.flatness)?.verdict ?? null;
}

/** A gap, a hump, how far a place is off: to 1/32 in, or 0.1 mm. */
export function gapText(mm: number): string {
  return gapWords(mm, reader.value);
}

/** The same with its sign: + where the bed is high. */
export function offText(mm: number): string {
  const text = gapText(mm);
  return mm > 0 && !/^0[^\d.]/.test(text) ? `+${text}` : text;
}

/** How much to take off or put on: to 1/16 in or 0.5 mm, what a hand can do; never nothing. */
export function depthToDo(mm: number): string {
  const { units, language } = reader.value;
  if (units === "imperial") return inchesOnly(Math.max(mm, 25.4 / 16), 16);
  return `${numberText(Math.max(0.5, Math.round(mm * 2) / 2), 1, language)}\u202fmm`;
}

const IN_INCHES = 3 * 304.8; // mm: a shorter straightedge is told in inches

/** A straightedge by its length: `12″`, `10′`, `6′ 6 3/4″`; mm below a metre, then metres. */
export function ruleText(mm: number): string {
  const { units, language } = reader.value;
  if (units === "imperial") return mm < IN_INCHES ? inchesOnly(mm, 8) : feetInches(mm, 8).replace(/\u00a00\u2033$/, "");
  return mm >= 1000 ? `${numberText(mm / 1000, 2, language)}\u202fm` : `${numberText(mm, 0, language)}\u202fmm`;
}

/** Within, beyond, and the like: as a sign beside the words. */
export const SIGNS = { within: "\u2713", beyond: "\u2717", too_sparse: "?", not_read: "\u2013" } as const satisfies Record<Flatness["verdict"], string>;

export function verdictText(verdict: Flatness["verdict"]): string {
  return t(`checking.verdict.${verdict}`);
}

/** Where the worst place is nearer to the limit than the readings can tell; else nothing. */
export function nearText({ verdict, sure }: Pick<StraightedgeCheck, "verdict" | "sure">): string {
  return !sure && (verdict === "within" || verdict === "beyond") ? t("checking.near") : "";
}

export function workText({ id, way, depth }: FlatnessWork): string {
  return `${id} ${way === "rub" ? "\u2212" : "+"}${depthToDo(depth)}`;
}

/** Where a plane of the top is told to be: the middle of its corners. */
export function middleOfPlane({ bed }: Pick<Plan, "bed">, facet: number): readonly [number, number] {
  const corners = bed.top[facet]?.polygon ?? [];
  const mean = (index: 0 | 1) => corners.reduce((sum, corner) => sum + corner[index], 0) / (corners.length || 1);
  return [Math.round(mean(0)), Math.round(mean(1))];
}

/** The check that tells most: one that is beyond, then one that cannot be judged, then the longest. */
export function governingCheck({ checks }: Flatness): StraightedgeCheck | null {
  const over = ({ gap, hump, limit }: StraightedgeCheck) => Math.max(gap?.gap ?? 0, hump?.gap ?? 0) / (limit || 1);
  const beyond = checks.filter(({ verdict }) => verdict === "beyond").sort((a, b) => over(b) - over(a))[0];
  return beyond ?? checks.find(({ verdict }) => verdict === "too_sparse") ?? [...checks].sort((a, b) => over(b) - over(a))[0] ?? null;
}

/** The worst of a check: its gap or its hump, whichever is more. */
export function worstOf({ gap, hump }: StraightedgeCheck): { readonly kind: "gap" | "hump"; readonly lying: NonNullable<StraightedgeCheck["gap"]> } | null {
  if (hump && hump.gap > (gap?.gap ?? 0)) return { kind: "hump", lying: hump };
  return gap && { kind: "gap", lying: gap };
}
