/** A place by tape: so far along a wall, so far off it. */
import { placeOffWall, twiceArea, wallAt } from "../../drawing/figure";
import type { Place } from "../../drawing/camera";
import { t } from "../../words";
import type { Taped } from "./form";
import { TapedField } from "./TapedField";
import { WallChooser } from "./WallChooser";

export interface Offset {
  readonly wall: number;
  readonly along: Taped | null;
  readonly off: Taped | null;
}

export const NO_OFFSET: Offset = { wall: 0, along: null, off: null };

/** The place, rounded to the mm, or null while a length is missing. */
export function placeFromOffset(corners: readonly Place[], { wall, along, off }: Offset): Place | null {
  const ends = wallAt(corners, wall);
  if (!ends || !along || !off) return null;
  const [x, y] = placeOffWall(ends, along.mm, twiceArea(corners) < 0 ? -off.mm : off.mm);
  return [Math.round(x), Math.round(y)];
}

export function OffsetFields({ lengths, value, onChange }: { lengths: readonly number[]; value: Offset; onChange: (changed: Partial<Offset>) => void }) {
  return (
    <>
      <WallChooser lengths={lengths} wall={value.wall} onWall={(wall) => onChange({ wall })} />
      <TapedField name="offset-along" label={t("offset.along")} value={value.along} onSet={(along) => onChange({ along })} />
      <TapedField name="offset-off" label={t("offset.off")} value={value.off} onSet={(off) => onChange({ off })} />
    </>
  );
}
