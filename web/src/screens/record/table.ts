/** One table of the record: told once, shown on the screen and on paper, and written for spreadsheets with plain numbers. */
import {
  areaText, datedText, depthText, fallText, heightText, hoursText, lengthText, loadShortText, massText, numberText, speedText, temperatureText, volumeText, type Units,
} from "../../units";
import { reader, t } from "../../words";
import { gapText, ruleText } from "../common/flatness";
import type { Cell } from "./csv";

/** How a value is written. `place`: [x, y] mm, two columns of a spreadsheet. `fine`: gaps, finer than a rod is read. `rule`: a straightedge. */
export type Measure =
  | "text" | "count" | "number" | "length" | "depth" | "height" | "fine" | "rule" | "place" | "temperature" | "share" | "percent" | "speed" | "volume" | "area"
  | "mass" | "load" | "hours" | "fall" | "moment";

type Value = string | number | readonly [number, number] | null | undefined;

export interface Column {
  readonly title: string;
  readonly measure: Measure;
  /** Left out on the screen and on paper where no row says anything in it. */
  readonly isOptional?: true;
}

export interface Table {
  /** Names the file, the same in every language. */
  readonly id: string;
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Value[])[];
  /** What is said where there is nothing to tell. */
  readonly none: string;
}

const KM_PER_MILE = 1.609344;

/** The unit in which a spreadsheet gets it, and the factor from what is stored. */
interface Unit {
  readonly name: string;
  readonly per: number;
  readonly from?: number;
}

const INCH: Unit = { name: "in", per: 25.4 };
const MM: Unit = { name: "mm", per: 1 };
const LENGTH = { imperial: INCH, metric: MM } as const;
const UNITS: Partial<Record<Measure, Readonly<Record<Units, Unit>>>> = {
  length: LENGTH, depth: LENGTH, height: LENGTH, fine: LENGTH, rule: LENGTH, place: LENGTH,
  temperature: { imperial: { name: "°F", per: 5 / 9, from: 32 }, metric: { name: "°C", per: 1 } },
  volume: { imperial: { name: "ft³", per: 0.028316846592 }, metric: { name: "m³", per: 1 } },
  area: { imperial: { name: "ft²", per: 0.09290304 }, metric: { name: "m²", per: 1 } },
  mass: { imperial: { name: "lb", per: 0.45359237 }, metric: { name: "kg", per: 1 } },
  load: { imperial: { name: "lb/ft²", per: 0.45359237 / 0.09290304 }, metric: { name: "kg/m²", per: 1 } },
  speed: { imperial: { name: "mph", per: KM_PER_MILE }, metric: { name: "km/h", per: 1 } },
  fall: { imperial: { name: "%", per: 0.01 }, metric: { name: "%", per: 0.01 } },
  share: { imperial: { name: "%", per: 0.01 }, metric: { name: "%", per: 0.01 } },
  percent: { imperial: { name: "%", per: 1 }, metric: { name: "%", per: 1 } },
  hours: { imperial: { name: "h", per: 1 }, metric: { name: "h", per: 1 } },
};

const SHOWN: Partial<Record<Measure, (value: number) => string>> = {
  count: (value) => numberText(value, 0, reader.value.language),
  number: (value) => numberText(value, 2, reader.value.language),
  length: (mm) => lengthText(mm, reader.value),
  depth: (mm) => depthText(mm, reader.value),
  height: (mm) => heightText(mm, reader.value),
  fine: gapText,
  rule: ruleText,
  temperature: (celsius) => temperatureText(celsius, reader.value),
  share: (value) => `${numberText(value * 100, 0, reader.value.language)}\u202f%`,
  percent: (value) => `${numberText(value, 0, reader.value.language)}\u202f%`,
  speed: (kmH) => speedText(kmH, reader.value),
  volume: (m3) => volumeText(m3, reader.value),
  area: (m2) => areaText(m2, reader.value),
  mass: (kg) => massText(kg, reader.value),
  load: (load) => loadShortText(load, reader.value),
  hours: (hours) => `${hours < 0 ? "\u2212" : ""}${hoursText(Math.abs(hours), reader.value)}`,
  fall: (ratio) => fallText(ratio, reader.value),
};

/** As it stands on the screen and on paper. */
export function shownText(value: Value, measure: Measure): string {
  if (value === null || value === undefined || value === "") return t("none_yet");
  if (typeof value === "string") return measure === "moment" ? datedText(value, reader.value) : value;
  if (typeof value === "number") return (SHOWN[measure] ?? String)(value);
  return value.map((one) => lengthText(one, reader.value)).join(" \u00b7 ");
}

/** What stands over a column; of places, how they are told in it. */
export function headText({ title, measure }: Column): string {
  return measure === "place" ? t("record.place_head", { title }) : title;
}

/** The table as plain cells: the unit stands in the header, moments as they are stored (ISO 8601). */
export function cellsOf({ columns, rows }: Table): { readonly header: readonly string[]; readonly rows: readonly (readonly Cell[])[] } {
  return {
    header: columns.flatMap(headerOf),
    rows: rows.map((row) => columns.flatMap(({ measure }, index) => cellOf(row[index], measure))),
  };
}

function unitOf(measure: Measure): Unit | undefined {
  return UNITS[measure]?.[reader.value.units];
}

function headerOf({ title, measure }: Column): readonly string[] {
  const unit = unitOf(measure)?.name;
  if (measure === "place") return [t("record.across", { title, unit }), t("record.up", { title, unit })];
  return [unit === undefined ? title : `${title} (${unit})`];
}

function cellOf(value: Value, measure: Measure): readonly Cell[] {
  if (measure === "place") return typeof value === "object" && value !== null ? value.map((one) => inUnit(one, measure)) : [null, null];
  if (typeof value === "number") return [inUnit(value, measure)];
  return [typeof value === "string" ? value : null];
}

function inUnit(value: number, measure: Measure): number {
  const unit = unitOf(measure);
  return unit === undefined ? value : value / unit.per + (unit.from ?? 0);
}
