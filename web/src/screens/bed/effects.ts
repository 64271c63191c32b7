/** What a top makes of the bed, as figures that can be set beside another top's. */
import { depthText, heightText, loadShortText, massText, numberText, volumeText, type Reader } from "../../units";
import type { Bed, BedDesign, Plan } from "../../wire";
import { t } from "../../words";
import { moneyText } from "../common/money";

export type Designed = Pick<BedDesign, "bed" | "materials" | "quote" | "explanations" | "cautions">;

export interface Effect {
  readonly id: string;
  readonly label: string;
  /** Where the plan explains it. */
  readonly path: string;
  /** Null where it is not known: a step to a floor of unknown height, money without prices. */
  readonly value: number | null;
  readonly write: (value: number, reader: Reader) => string;
  /** How a difference of it is written, without a sign; as the value where that is the same. */
  readonly writeBy?: (value: number, reader: Reader) => string;
}

const count = (value: number, { language }: Reader) => numberText(value, 0, language);

export function designedFrom({ bed, materials, quote, explanations, cautions }: Plan): Designed {
  return { bed, materials, quote, explanations, cautions };
}

function bagsEffect({ materials }: Designed): Effect {
  const row = materials.findIndex(({ item }) => item === "cement");
  return { id: "bags", label: t("effect.bags"), path: `materials[${row}].packages`, value: materials[row]?.packages ?? null, write: count };
}

function stepEffects({ doorways }: Bed): readonly Effect[] {
  return doorways.map(({ id, worst_step }, n) => (
    { id: `step-${id}`, label: t("effect.step", { id }), path: `bed.doorways[${n}].worst_step`, value: worst_step, write: heightText, writeBy: depthText }
  ));
}

/** Of the steps that are known the highest, up or down; null where none is. */
function worstOf(steps: readonly Effect[]): Effect | null {
  const known = steps.filter(({ value }) => value !== null);
  return known.sort((a, b) => Math.abs(b.value ?? 0) - Math.abs(a.value ?? 0))[0] ?? null;
}

/** Everything that can be compared. Money only where the person may see it. */
export function effectsOf(designed: Designed, withMoney: boolean): readonly Effect[] {
  const { bed, quote } = designed;
  const money = (value: number) => moneyText(value, quote.currency);
  return [
    { id: "thinnest", label: t("bed.thinnest"), path: "bed.thickness.min", value: bed.thickness.min, write: depthText },
    { id: "thickest", label: t("bed.thickest"), path: "bed.thickness.max", value: bed.thickness.max, write: depthText },
    { id: "mean", label: t("bed.mean"), path: "bed.thickness.mean", value: bed.thickness.mean, write: depthText },
    ...stepEffects(bed),
    bagsEffect(designed),
    { id: "mass", label: t("effect.mass"), path: "bed.mass", value: bed.mass, write: massText },
    { id: "volume", label: t("bed.volume"), path: "bed.volume", value: bed.volume, write: volumeText },
    { id: "load", label: t("effect.load"), path: "bed.load.max", value: bed.load.max, write: loadShortText },
    ...(withMoney ? [{ id: "money", label: t("effect.money"), path: "quote.total", value: quote.total, write: money }] : []),
  ];
}

/** The six that are watched while the height moves: three of the floor, three of what it takes. */
export function watchedOf(designed: Designed, withMoney: boolean): readonly Effect[] {
  const all = effectsOf(designed, withMoney);
  const step = worstOf(stepEffects(designed.bed));
  const hasPrice = withMoney && designed.quote.total !== null;
  const wanted = ["thinnest", "thickest", step?.id ?? "mean", "bags", "mass", hasPrice ? "money" : "load"];
  const told = wanted.flatMap((id) => all.find((effect) => effect.id === id) ?? []);
  return told.map((effect) => (effect.id === step?.id ? { ...effect, label: t("door.step") } : effect));
}

/** What alternatives are told apart by. */
export function comparedOf(designed: Designed, withMoney: boolean): readonly Effect[] {
  return effectsOf(designed, withMoney).filter(({ id, value }) => id !== "volume" && id !== "mean" && (id !== "money" || value !== null));
}

/** Of a value: sums in another order differ by less, and significant figures would show it. */
const HAIR = 1e-6;

/** How much more (or less) than before; empty where nobody could read the difference, or one of them is not known. */
export function differenceText(now: Effect, before: Effect | undefined, reader: Reader): string {
  if (now.value === null || before?.value == null) return "";
  const write = now.writeBy ?? now.write;
  const by = now.value - before.value;
  if (Math.abs(by) <= HAIR * Math.abs(before.value)) return "";
  const text = write(Math.abs(by), reader);
  return text === write(0, reader) ? "" : signed(by, text);
}

function signed(by: number, text: string): string {
  return by > 0 ? `+${text}` : `\u2212${text}`;
}
