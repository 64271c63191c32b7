/** What a top is called where it stands beside others. */
import { heightText } from "../../units";
import type { Bed, Top } from "../../wire";
import { reader, t } from "../../words";
import { heightOfTop } from "./moved";

/** Its kind, and the height that stands for it where it has one. */
export function topName(top: Top, bed: Bed | null): string {
  const kind = t(`top_kind.${top.kind}`);
  const height = heightOfTop(top, bed);
  return height === null ? kind : t("alternative.at", { kind, at: heightText(height, reader.value) });
}
