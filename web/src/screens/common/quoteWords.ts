/** A quote in words, wherever it stands: what is bought, where a sum lies, what it waits for. */
import type { Quote, QuoteLine } from "../../wire";
import { t, told } from "../../words";
import { packagesText } from "./materials";
import { moneyText } from "./money";
import { currency, sandText } from "./prices";

export function spanText(span: readonly [number, number] | null): string | null {
  return span && t("quote.range", { low: moneyText(span[0], currency()), high: moneyText(span[1], currency()) });
}

export function boughtText(line: QuoteLine): string {
  return line.packages === null ? sandText(line.quantity) : packagesText(line.item, line.packages);
}

export function unpricedText({ unpriced }: Quote): string {
  return t("quote.waits", { items: unpriced.map((item) => told("item", item, {}, item)).join(", ") });
}
