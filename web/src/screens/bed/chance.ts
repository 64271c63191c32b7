/** A chance in plain words. */
import type { Statistics } from "../../wire";
import { t } from "../../words";

export type Chance = Statistics["higher"][number];

/** What a bed may be thinner by and nobody minds: less is not worth a word (common practice, no source). */
const WORTH_TELLING = 3; // mm
const CERTAIN = 0.95;
const HARDLY = 0.01;
const OFTEN = 0.4; // from here on tenths are plainer than "1 in"

export function chanceText({ by, probability }: Chance): string {
  if (probability > CERTAIN) return t("higher.certain", { by });
  if (probability < HARDLY) return t("higher.hardly", { by });
  if (probability >= OFTEN) return t("higher.tenths", { tenths: Math.round(probability * 10), by });
  return t("higher.chance", { in_how_many: Math.round(1 / probability), by });
}

/** The chance worth telling first: of the least amount that matters, else of the greatest there is. */
export function toldChance(chances: readonly Chance[]): Chance | null {
  const ordered = [...chances].sort((a, b) => a.by - b.by);
  return ordered.find(({ by }) => by >= WORTH_TELLING) ?? ordered.at(-1) ?? null;
}
