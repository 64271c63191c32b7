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
export function quantityText({ quantity, unit }: Item): string {
  if (unit === "m2") return areaText(quantity, reader.value);
  return unit === "m" ? lengthText(quantity * 1000, reader.value) : massText(quantity, reader.value);
}

/** The quantity as it is bought or carried: bags, loose sand, water by volume. */
export function amountText(item: Item): string {
  if (item.item === "water") return waterText(item.quantity, reader.value);
  if (item.packages !== null) return t(packagesWord(item.item), { count: item.packages });
  return item.loose_volume ? volumeText(item.loose_volume, reader.value) : massText(item.quantity, reader.value);
}

export function itemName(item: Item): string {
  return told("item", item.item, {}, item.item);
}
