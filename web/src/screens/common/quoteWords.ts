/** A quote in words, wherever it stands: what is bought, where a sum lies, what it waits for. */
import type { Quote, QuoteLine } from "../../wire";
import { t, told } from "../../words";
import { packagesText } from "./materials";
import { moneyText } from "./money";
import { currency, sandText } from "./prices";

export function spanText([least, most]: readonly [number, number]): string {
  const [low, high] = [moneyText(least, currency()), moneyText(most, currency())];
  return t(low === high ? "quote.range_one" : "quote.range", { low, high });
}

export function boughtText(line: QuoteLine): string {
  return line.packages === null ? sandText(line.quantity) : packagesText(line.item, line.packages);
}

export function unpricedText({ unpriced }: Quote): string {
  return t("quote.waits", { items: unpriced.map((item) => told("item", item, {}, item)).join(", ") });
}
