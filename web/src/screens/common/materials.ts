/** What is to be ordered, in words: on the screen for the mix and on paper. */
import { areaText, lengthText, massText, volumeText, waterText } from "../../units";
import type { Material as Item } from "../../wire";
import { reader, t, told } from "../../words";

const PACKAGES = {
  membrane: "material.rolls", reinforcement: "material.sheets", perimeter_strip: "material.pieces", tile: "material.boxes",
} as const;

function packagesWord(item: string): (typeof PACKAGES)[keyof typeof PACKAGES] | "material.bags" {
  return item in PACKAGES ? PACKAGES[item as keyof typeof PACKAGES] : "material.bags";
}

/** How much of it before it is packed: by weight, by area or by length. */
export function quantityText({ quantity, unit }: Pick<Item, "quantity" | "unit">): string {
  if (unit === "m2") return areaText(quantity, reader.value);
  return unit === "m" ? lengthText(quantity * 1000, reader.value) : massText(quantity, reader.value);
}

/** One package, where it comes in any. */
export function sizeText({ package_size: size, unit }: { readonly package_size: number | null; readonly unit: string }): string | null {
  return size === null ? null : quantityText({ quantity: size, unit });
}

export function packagesText(item: string, count: number): string {
  return t(packagesWord(item), { count });
}

type Bought = Pick<Item, "item" | "quantity" | "packages" | "loose_volume">;

/** The quantity as it is bought or carried: bags, loose sand, water by volume. */
export function amountText(item: Bought): string {
  if (item.item === "water") return waterText(item.quantity, reader.value);
  if (item.packages !== null) return packagesText(item.item, item.packages);
  return item.loose_volume ? volumeText(item.loose_volume, reader.value) : massText(item.quantity, reader.value);
}

/** Where it lies 9 times in 10, as it is bought; null while that is not reckoned. */
export function rangeText({ packages_range: packages, loose_range: loose, quantity_range: quantity }: Item): string | null {
  if (packages) return t(packages[0] === packages[1] ? "range.bags_one" : "range.bags", { low: packages[0], high: packages[1] });
  if (loose) return t("range.volume", { low: loose[0], high: loose[1] });
  return quantity && t("range.water", { low: quantity[0], high: quantity[1] });
}

export function itemName(item: Pick<Item, "item">): string {
  return told("item", item.item, {}, item.item);
}
