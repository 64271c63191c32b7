/** Money as a person reads it, in the company's own currency, whatever they call it. */
import { moneyNumber } from "../../units";
import { reader } from "../../words";

/** `$ 12.50`: a sign goes before the amount, a code or a word after it; without a currency the amount alone. */
export function moneyText(amount: number, currency: string): string {
  const text = moneyNumber(amount, reader.value);
  if (currency === "") return text;
  return /^\p{L}/u.test(currency) ? `${text}\u202f${currency}` : `${currency}\u202f${text}`;
}
