/** How well the taped walls closed, in plain words. */
import { misclosureOf, walkOf } from "../../drawing/figure";
import type { Outline } from "../../wire";
import { t } from "../../words";

const NOTHING_SEEN = 0.5; // mm: less than a tape shows

export function Misclosure({ outline }: { outline: Outline }) {
  if (!outline.walls) return null;
  const gap = misclosureOf(walkOf(outline.walls));
  const around = outline.walls.reduce((sum, { length }) => sum + length, 0);
  const words = gap < NOTHING_SEEN ? t("misclosure.none") : t("misclosure.some", { gap, in_how_many: Math.round(around / gap) });
  return <p class="notice" data-testid="misclosure">{words}</p>;
}
