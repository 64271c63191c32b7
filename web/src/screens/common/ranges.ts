/** How sure a figure is: where it lies 9 times in 10, in words, and where the plan explains that. */
import type { Plan } from "../../wire";
import { t } from "../../words";

export interface Range {
  /** Null while the engine has not told it. */
  readonly text: string | null;
  readonly path: string;
}

export function volumeRange({ bed }: Plan): Range {
  const [low, high] = bed.volume_range ?? [];
  return { text: bed.volume_range && t("range.volume", { low, high }), path: "bed.volume_range" };
}
