/** How sure a figure is: where it lies 9 times in 10, in words. Null while the engine has not told it. */
import type { Plan } from "../../wire";
import { t } from "../../words";

export function volumeRange({ bed }: Plan): string | null {
  if (bed.volume_range === null) return null;
  const [low, high] = bed.volume_range;
  return t("range.volume", { low, high });
}

export function bagsRange({ mix }: Plan): string | null {
  if (mix.bags_range === null) return null;
  const [low, high] = mix.bags_range;
  return t(low === high ? "range.bags_one" : "range.bags", { low, high });
}
