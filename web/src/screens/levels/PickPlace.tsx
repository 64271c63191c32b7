/** Where the instrument stands, by a tap on the drawing; it may be left out. */
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import { t } from "../../words";
import { bareScene } from "../common/roomFigure";
import type { RoomView } from "../common/useRoom";

export function PickPlace({ room, at, onPick }: { room: RoomView; at: Place | null; onPick: (at: Place) => void }) {
  const scene = { ...bareScene(room.fields), points: at ? [{ id: "stands", at, label: "", kind: "instrument" as const }] : [] };
  return (
    <div class="field">
      <span class="label">{t("setup.where")}</span>
      <div class="pick"><Drawing scene={scene} name="pick" touch={[]} onPlace={([x, y]) => onPick([Math.round(x), Math.round(y)])} /></div>
      <p class="quiet small">{t("setup.where_more")}</p>
    </div>
  );
}
