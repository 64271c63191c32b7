/** Shims as they are set: whole sixteenths of an inch or whole mm, rounded by the engine so that neighbours do not step. */
import { depthText } from "../../units";
import type { Station } from "../../wire";
import { reader } from "../../words";

const INCH = 25.4; // mm

/** The amount that is set or told, mm: the engine's whole sixteenths or whole millimetres. */
export function roundedMm({ sixteenths, millimetres }: Pick<Station, "sixteenths" | "millimetres">): number {
  return reader.value.units === "imperial" ? (sixteenths * INCH) / 16 : millimetres;
}

/** The same for a height that the plan no longer has, mm: to the nearest one. */
export function nearestMm(mm: number): number {
  return roundedMm({ sixteenths: Math.round((mm * 16) / INCH), millimetres: Math.round(mm) });
}

export function shimText(station: Pick<Station, "sixteenths" | "millimetres">): string {
  return depthText(roundedMm(station), reader.value);
}
