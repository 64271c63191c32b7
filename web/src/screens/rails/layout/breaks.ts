/** What the rails break, the worst first, and which rail each concerns. */
import type { Caution, Plan } from "../../../wire";
import { cautionsAt } from "../../common/plan";

/** What leaves bed unserved or a strip where none can lie comes first; what only costs work or is to know comes last. */
const FIRST = [
  "no_rails_placed", "no_rails_fit", "too_many_rails", "rail_outside", "rail_in_wall", "rails_too_far", "rail_cut_off",
  "strip_too_thick", "rail_short", "rails_too_close", "one_rail", "rail_alone", "rail_near_wall",
];
const LAST = ["rail_not_needed", "inset_reduced", "inset_raised", "by_hand"];

function rankOf({ code }: Caution): number {
  const [first, last] = [FIRST.indexOf(code), LAST.indexOf(code)];
  return first >= 0 ? first - FIRST.length : last + 1;
}

export interface Break {
  readonly caution: Caution;
  /** The rail it stands at; null for the lay-out as a whole. */
  readonly rail: string | null;
}

function railAt({ rails }: Pick<Plan, "rails">, { where }: Caution): string | null {
  const found = /^rails\[(\d+)\]/.exec(where);
  return found ? rails[Number(found[1])]?.id ?? null : null;
}

export function breaksOf(plan: Pick<Plan, "rails" | "cautions">): readonly Break[] {
  const cautions = [...cautionsAt(plan, "rails")].sort((a, b) => rankOf(a) - rankOf(b));
  return cautions.map((caution) => ({ caution, rail: railAt(plan, caution) }));
}

/** Whether it breaks something; else it is to know. */
export function isBroken({ caution }: Break): boolean {
  return !LAST.includes(caution.code);
}

/** Rails that break something. */
export function warnedRails(breaks: readonly Break[]): ReadonlySet<string> {
  return new Set(breaks.flatMap((one) => (one.rail !== null && isBroken(one) ? [one.rail] : [])));
}
