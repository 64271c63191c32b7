/** What a top makes of the bed, as rows that can be set beside another top's. */
import { depthText, heightText, loadText, massText, numberText, volumeText, type Reader } from "../../units";
import type { Bed, BedDesign, Plan } from "../../wire";
import { t } from "../../words";

export type Designed = Pick<BedDesign, "bed" | "materials" | "quote">;

export interface Effect {
  readonly id: string;
  readonly label: string;
  /** Null where it is not known: a step to a floor of unknown height, money without prices. */
  readonly value: number | null;
  readonly write: (value: number, reader: Reader) => string;
}

const count = (value: number, { language }: Reader) => numberText(value, 0, language);

export function designedFrom(plan: Plan): Designed {
  return { bed: plan.bed, materials: plan.materials, quote: plan.quote };
}

export function bagsOf({ materials }: Designed): number | null {
  return materials.find(({ item }) => item === "cement")?.packages ?? null;
}

function doorwayEffects({ doorways }: Bed): readonly Effect[] {
  return doorways.flatMap(({ id, finished_height, worst_step }) => [
    { id: `height-${id}`, label: t("effect.doorway", { id }), value: finished_height, write: heightText },
    { id: `step-${id}`, label: t("effect.step", { id }), value: worst_step, write: depthText },
  ]);
}

function fixtureEffects({ fixtures }: Bed): readonly Effect[] {
  return fixtures.filter(({ kind }) => kind !== "post").map(({ id, difference }) => (
    { id: `fixture-${id}`, label: t("effect.fixture", { id }), value: difference, write: depthText }
  ));
}

/** Money only where the person may see it. */
export function effectsOf(designed: Designed, withMoney: boolean): readonly Effect[] {
  const { bed, quote } = designed;
  const money = (value: number, { language }: Reader) => `${numberText(value, 0, language)} ${quote.currency}`.trim();
  return [
    { id: "thinnest", label: t("bed.thinnest"), value: bed.thickness.min, write: depthText },
    { id: "thickest", label: t("bed.thickest"), value: bed.thickness.max, write: depthText },
    ...doorwayEffects(bed),
    ...fixtureEffects(bed),
    { id: "bags", label: t("effect.bags"), value: bagsOf(designed), write: count },
    { id: "volume", label: t("bed.volume"), value: bed.volume, write: volumeText },
    { id: "mass", label: t("bed.mass"), value: bed.mass, write: massText },
    { id: "load", label: t("effect.load"), value: bed.load.max, write: loadText },
    ...(withMoney ? [{ id: "money", label: t("effect.money"), value: quote.total, write: money }] : []),
  ];
}

const SAME = 1e-6;

/** How much more (or less) than before; empty where it is the same or one of them is not known. */
export function differenceText(now: Effect, before: Effect | undefined, reader: Reader): string {
  if (now.value === null || before?.value == null) return "";
  const by = now.value - before.value;
  if (Math.abs(by) < SAME) return "";
  const text = now.write(Math.abs(by), reader);
  return by > 0 ? `+${text}` : `\u2212${text}`;
}
