/** The lay-out's figures, counted from the plan's rails, and how each explains itself. */
import type { Explanation, Plan } from "../../../wire";
import { explained } from "../../common/ownExplanations";
import { spacingsOf, widestOf } from "./spacing";

export interface Counts {
  readonly rails: number;
  readonly stations: number;
  /** Settings beyond the first of each rail. */
  readonly moves: number;
  readonly settings: number;
  /** mm between the neighbours that are furthest apart; null for fewer than two rails side by side. */
  readonly widest: number | null;
  /** Mortar in all ramps, m³. */
  readonly ramps: number;
}

function sumOf<T>(list: readonly T[], of: (one: T) => number): number {
  return list.reduce((sum, one) => sum + of(one), 0);
}

export function countsOf({ rails }: Pick<Plan, "rails">): Counts {
  return {
    rails: rails.length,
    stations: sumOf(rails, ({ stations }) => stations.length),
    moves: sumOf(rails, ({ settings }) => Math.max(0, settings.length - 1)),
    settings: sumOf(rails, ({ settings }) => settings.length),
    widest: widestOf(spacingsOf(rails))?.gap ?? null,
    ramps: sumOf(rails, ({ ramp_volume: volume }) => volume),
  };
}

type Told = "rails" | "stations" | "moves" | "widest" | "byHand" | "ramps";

export function explainedLayout(plan: Plan, counts: Counts, reach: number): Readonly<Record<Told, Explanation>> {
  const widest: Explanation["inputs"] = counts.widest === null ? { reach } : { widest: counts.widest, reach };
  return {
    rails: explained("layout_rails", "geometry", { rail_direction: plan.rail_direction }),
    stations: explained("layout_stations", "geometry", { rails: counts.rails }),
    moves: explained("layout_moves", "geometry", { lies: counts.settings, rails: counts.rails }),
    widest: explained("layout_widest", "geometry", widest),
    byHand: explained("layout_by_hand", "geometry", { hand_area: sumOf(plan.hand_areas, ({ area }) => area), floor_area: plan.outline.area }),
    ramps: explained("layout_ramps", "surface", { stations: counts.stations }),
  };
}
