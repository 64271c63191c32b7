/** The tools at hand and the habits: straightedge, strips, how far from the wall. */
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { LengthSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";

const NAMES = [
  "rails.straightedge", "rails.bearing", "rails.inset", "rails.strip.thickness", "rails.strip.width", "rails.strip.length",
  "rails.overlap", "rails.station_spacing",
] as const;

export function RailTools({ room, onClose }: { room: RoomView; onClose: () => void }) {
  return (
    <Dialog title={t("rails.tools")} testid="tools" onClose={onClose}>
      <div class="stack tight">
        <p class="quiet">{t("rails.tools_more")}</p>
        {NAMES.map((name) => <LengthSetting key={name} room={room} name={name} label={t(`tool.${name}`)} />)}
        <p class="notice">{t("rails.soak")}</p>
      </div>
    </Dialog>
  );
}
