/** A rectangle without bed: where it begins along a wall, how far off it, and its two sides. */
import { areWithin, rectangleOffWall, twiceArea, wallAt } from "../../drawing/figure";
import { editRoom } from "../../state";
import type { Point } from "../../wire";
import { t } from "../../words";
import { cornersOf } from "../common/roomFigure";
import { formOf, type Taped } from "../common/form";
import { saved } from "../common/saving";
import { TapedField } from "../common/TapedField";
import { WallChooser } from "../common/WallChooser";
import type { PartFormProps } from "./DoorwayForm";

interface Cutout {
  readonly wall: number;
  readonly along: Taped | null;
  readonly off: Taped | null;
  readonly across: Taped | null;
  readonly deep: Taped | null;
}

const BEGIN: Cutout = { wall: 0, along: null, off: null, across: null, deep: null };

function polygonFrom(corners: readonly Point[], { wall, along, off, across, deep }: Cutout): readonly Point[] | null {
  const ends = wallAt(corners, wall);
  if (!ends || !along || !off || !across?.mm || !deep?.mm) return null;
  const inward = twiceArea(corners) < 0 ? -1 : 1;
  return rectangleOffWall(ends, along.mm, inward * off.mm, [across.mm, inward * deep.mm]);
}

export function CutoutForm({ room, lengths, onDone }: PartFormProps) {
  const { values, set, draft } = formOf(`cutout:${room.id}`, BEGIN);
  const outline = room.fields.outline ?? {};
  const corners = cornersOf(outline);
  const polygon = polygonFrom(corners, values);
  const isOutside = polygon !== null && !areWithin(corners, polygon);
  const add = async () => {
    const cutouts = [...(outline.cutouts ?? []), polygon ?? []];
    if (polygon && (await saved(editRoom(room.id, { outline: { ...outline, cutouts } }, { draft })))) onDone();
  };
  return (
    <div class="stack">
      <p class="quiet">{t("cutout.more")}</p>
      <WallChooser lengths={lengths} wall={values.wall} onWall={(wall) => set({ wall })} />
      <TapedField name="cutout-along" label={t("offset.along")} value={values.along} onSet={(along) => set({ along })} />
      <TapedField name="cutout-off" label={t("offset.off")} value={values.off} onSet={(off) => set({ off })} />
      <TapedField name="cutout-across" label={t("cutout.across")} value={values.across} onSet={(across) => set({ across })} />
      <TapedField name="cutout-deep" label={t("cutout.deep")} value={values.deep} onSet={(deep) => set({ deep })} />
      {isOutside && <p class="caution" role="status">{t("cutout.outside")}</p>}
      <button type="button" class="button main wide" data-testid="keep-cutout" disabled={!polygon || isOutside} onClick={() => void add()}>{t("cutout.add")}</button>
    </div>
  );
}
