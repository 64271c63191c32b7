/** Which column of a table holds what: told the other way round for the person, column by column. */
import type { TableInAnswer } from "../../wire";

export const MEANINGS = ["point", "northing", "easting", "elevation", "down", "description"] as const;
export type Meaning = (typeof MEANINGS)[number];
export type Columns = Readonly<Record<Meaning, number | null>>;

export function columnsOf({ columns }: TableInAnswer): Columns {
  const { point, northing, easting, elevation, down, description } = columns;
  return { point, northing, easting, elevation, down, description };
}

export function meaningOf(columns: Columns, column: number): Meaning | "none" {
  return MEANINGS.find((meaning) => columns[meaning] === column) ?? "none";
}

/** `column` now holds `meaning` and nothing else; the column that held it before holds nothing. */
export function withMeaning(columns: Columns, column: number, meaning: Meaning | "none"): Columns {
  const freed = Object.fromEntries(MEANINGS.map((one) => [one, columns[one] === column ? null : columns[one]])) as Columns;
  return meaning === "none" ? freed : { ...freed, [meaning]: column };
}

/** Heights as they were taken for one kind, taken for the other: the column moves with its meaning. */
export function withHeights(columns: Columns, heights: "elevation" | "down"): Columns {
  const other = heights === "elevation" ? "down" : "elevation";
  return columns[heights] === null ? { ...columns, [heights]: columns[other], [other]: null } : columns;
}

export function widthOf({ first_rows: rows }: TableInAnswer): number {
  return Math.max(0, ...rows.map((row) => row.length));
}

/** What stands in a column, for whoever chooses: its name, else its first cells. */
export function sampleOf({ first_rows: rows, header }: TableInAnswer, column: number): string {
  const cells = (header ? rows.slice(1) : rows).map((row) => row[column] ?? "").filter((cell) => cell !== "");
  return cells.slice(0, 3).join(" · ");
}
