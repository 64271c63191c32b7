/** A line of heights as it is typed: rod readings or heights, one after another, equally far apart. */
import type { Place } from "../../../drawing/camera";
import type { Units } from "../../../units";

export interface Typed {
  readonly mm: number;
  readonly typed: string;
}

export interface LineForm {
  /** down: rod readings below a level line · up: heights. */
  readonly way: "down" | "up";
  readonly heights: readonly Typed[];
  /** Null: as usual in the person's units. */
  readonly spacing: number | null;
  readonly from: Place | null;
  readonly to: Place | null;
}

export const EMPTY_LINE: LineForm = { way: "down", heights: [], spacing: null, from: null, to: null };

/** mm: 12 in or 300 mm, as ASTM E1155 and its metric companion have it. */
const SPACINGS: Readonly<Record<Units, number>> = { imperial: 304.8, metric: 300 };
export const FEWEST = 3; // heights that tell a bend

export function spacingOf({ spacing }: LineForm, units: Units): number {
  return spacing ?? SPACINGS[units];
}

/** As a record keeps it: heights upward. */
export function fieldsFromLine(line: LineForm, units: Units) {
  const sign = line.way === "down" ? -1 : 1;
  return {
    heights: line.heights.map(({ mm }) => (mm === 0 ? 0 : sign * mm)),
    spacing: spacingOf(line, units),
    ...(line.from ? { from: line.from } : {}),
    ...(line.from && line.to ? { to: line.to } : {}),
    typed: { heights: line.heights.map(({ typed }) => typed).join("; "), way: line.way },
  };
}
