/** What the company buys, and for how much: one record of each, the same on every phone. Foremen write them. */
import { PRICES_ID, SUPPLIES_ID, type Fields } from "../wire";
import { edit, type ActionOptions } from "./actions";
import { isDeleted, peekRow } from "./records";

/** Null empties a price: then nobody said. The office refuses prices from anybody but a foreman. */
export function editPrices(fields: Fields<"prices">, options?: ActionOptions): Promise<void> {
  return edit("prices", PRICES_ID, { ...fields, ...broughtBack("prices", PRICES_ID) }, options);
}

/** Packages and wastes for all rooms that say nothing else. */
export function editSupplies(fields: Fields<"supplies">, options?: ActionOptions): Promise<void> {
  return edit("supplies", SUPPLIES_ID, { ...fields, ...broughtBack("supplies", SUPPLIES_ID) }, options);
}

/** Whoever writes into a deleted record means it to hold again. */
function broughtBack(kind: "prices" | "supplies", id: string): { readonly deleted?: false } {
  const row = peekRow(kind, id);
  return row && isDeleted(row) ? { deleted: false } : {};
}
