/** A place for the rod, by tape: along a wall and off it. */
import { isOnFloor } from "../../drawing/figure";
import { setDraft } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { cornersOf, tapedLengths } from "../common/roomFigure";
import { formOf } from "../common/form";
import { NO_OFFSET, OffsetFields, placeFromOffset } from "../common/OffsetFields";
import type { RoomView } from "../common/useRoom";
import { placeDraft } from "./round";

export function OffsetDialog({ room, onClose }: { room: RoomView; onClose: () => void }) {
  const form = formOf(`offset:${room.id}`, NO_OFFSET);
  const corners = cornersOf(room.fields.outline);
  const at = placeFromOffset(corners, form.values);
  const isHere = at !== null && isOnFloor(corners, room.fields.outline?.cutouts ?? [], at);
  const stand = () => {
    void setDraft(placeDraft(room.id), JSON.stringify(at));
    form.clear();
    onClose();
  };
  return (
    <Dialog title={t("levels.by_tape")} testid="offset" onClose={onClose}>
      <div class="stack">
        <OffsetFields lengths={tapedLengths(room.fields.outline)} value={form.values} onChange={form.set} />
        {at && !isHere && <p class="caution" role="status">{t("levels.outside")}</p>}
        <button type="button" class="button main wide" data-testid="stand-here" disabled={!isHere} onClick={stand}>{t("levels.stand")}</button>
      </div>
    </Dialog>
  );
}
