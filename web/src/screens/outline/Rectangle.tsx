/** The quick way to an outline: a rectangle from two lengths. */
import { rectangle } from "../../drawing/figure";
import { editRoom } from "../../state";
import { t } from "../../words";
import { formOf, type Taped } from "../common/form";
import { saved } from "../common/saving";
import { TapedField } from "../common/TapedField";
import type { RoomView } from "../common/useRoom";

interface Sides {
  readonly across: Taped | null;
  readonly up: Taped | null;
}

export function Rectangle({ room }: { room: RoomView }) {
  const { values: { across, up }, set, draft } = formOf<Sides>(`rectangle:${room.id}`, { across: null, up: null });
  const draw = async () => {
    if (!across || !up) return;
    const typed = { ...room.fields.typed, "outline.walls.0": across.typed, "outline.walls.1": up.typed };
    await saved(editRoom(room.id, { outline: { walls: rectangle(across.mm, up.mm), cutouts: [] }, typed }, { draft }));
  };
  return (
    <div class="stack">
      <p>{t("rectangle.more")}</p>
      <TapedField name={`${room.id}:across`} label={t("rectangle.across")} value={across} onSet={(value) => set({ across: value })} />
      <TapedField name={`${room.id}:up`} label={t("rectangle.up")} value={up} onSet={(value) => set({ up: value })} />
      <button type="button" class="button main wide" data-testid="draw-rectangle" disabled={!across?.mm || !up?.mm} onClick={() => void draw()}>{t("rectangle.draw")}</button>
    </div>
  );
}
