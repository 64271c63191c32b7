/**
 * Tables as text for spreadsheets: RFC 4180, each line ended by CR LF, a cell quoted where it must be. Words that a spreadsheet
 * would take for a formula begin with an apostrophe; numbers are written as they are, whatever their sign.
 */

export type Separator = "comma" | "semicolon" | "tab";
export type DecimalMark = "point" | "comma";

export interface CsvHow {
  readonly separator: Separator;
  readonly decimal: DecimalMark;
  /** Tells a spreadsheet that the text is UTF-8. */
  readonly hasMark: boolean;
}

export type Cell = string | number | null;

const SIGNS = { comma: ",", semicolon: ";", tab: "\t" } as const;
const MARK = "\ufeff";
const FORMULA = /^[=+\-@\t\r]/;
const MUST_BE_QUOTED = /["\r\n]/;
const PLACES = 6; // decimals: a millionth of an inch or of a millimetre

export function csvText(header: readonly string[], rows: readonly (readonly Cell[])[], how: CsvHow): string {
  const lines = [header, ...rows].map((row) => row.map((cell) => written(cell, how)).join(SIGNS[how.separator]));
  return `${how.hasMark ? MARK : ""}${lines.map((line) => `${line}\r\n`).join("")}`;
}

function written(cell: Cell, how: CsvHow): string {
  if (cell === null) return "";
  return quoted(typeof cell === "number" ? numberCell(cell, how.decimal) : safe(cell), how.separator);
}

/** Without an exponent, and without digits that are only the machine's. */
function numberCell(value: number, decimal: DecimalMark): string {
  const text = value.toFixed(PLACES).replace(/\.?0+$/, "");
  const plain = text === "-0" ? "0" : text;
  return decimal === "comma" ? plain.replace(".", ",") : plain;
}

function safe(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

function quoted(text: string, separator: Separator): string {
  return MUST_BE_QUOTED.test(text) || text.includes(SIGNS[separator]) ? `"${text.replaceAll('"', '""')}"` : text;
}
