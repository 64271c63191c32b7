/** What is to be ordered, in words: on the screen for the mix and on paper. */
import { massText, volumeText, waterText } from "../../units";
import type { Material as Item } from "../../wire";
import { reader, t, told } from "../../words";

/** The quantity as it is bought or carried: bags, loose sand, water by volume. */
export function amountText(item: Item): string {
  if (item.item === "water") return waterText(item.quantity, reader.value);
  if (item.packages !== null) return t("material.bags", { count: item.packages });
  return item.loose_volume ? volumeText(item.loose_volume, reader.value) : massText(item.quantity, reader.value);
}

export function itemName(item: Item): string {
  return told("item", item.item, {}, item.item);
}
