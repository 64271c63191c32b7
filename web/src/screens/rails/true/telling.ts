/** Readings in words: where the level lay, and what it showed. */
import { errorText } from "../../../units";
import type { Fields } from "../../../wire";
import { reader, t } from "../../../words";
import { highEnd, type Entered } from "./reading";

export function whereLaid({ rail, railTo, from, to }: Pick<Entered, "rail" | "railTo" | "from" | "to">): string {
  return railTo === "" ? t("truing.laid_along", { rail, from, to }) : t("truing.laid_across", { rail, other: railTo, from, to });
}

export function whereOf({ rail, rail_to: railTo, from, to }: Fields<"rail_check">): string {
  return whereLaid({ rail: rail ?? "", railTo: railTo ?? "", from: from ?? 0, to: to ?? 0 });
}

/** Which end is high and by how much. */
export function showsText(off: number): string {
  const high = highEnd(off);
  return high === null ? t("truing.shows_level") : t(high === "from" ? "truing.shows_1" : "truing.shows_2", { by: Math.abs(off) });
}

/** A height against the top of bed, always with its sign. */
export function signedText(mm: number): string {
  const text = errorText(mm, reader.value);
  return mm > 0 && !/^0\D/.test(text) ? `+${text}` : text;
}
