/** The tools at hand and the habits: straightedge, strips, how far from the wall. */
import { t } from "../../words";
import { RAIL_DEFAULTS } from "../common/defaults";
import { Dialog } from "../common/Dialog";
import { LengthSetting } from "../common/Setting";
import type { RoomView } from "../common/useRoom";

const NAMES = Object.keys(RAIL_DEFAULTS) as (keyof typeof RAIL_DEFAULTS)[];

export function RailTools({ room, onClose }: { room: RoomView; onClose: () => void }) {
  return (
    <Dialog title={t("rails.tools")} testid="tools" onClose={onClose}>
      <div class="stack tight">
        <p class="quiet">{t("rails.tools_more")}</p>
        {NAMES.map((name) => <LengthSetting key={name} room={room} name={name} label={t(`tool.${name}`)} otherwise={RAIL_DEFAULTS[name]} />)}
        <p class="notice">{t("rails.soak")}</p>
      </div>
    </Dialog>
  );
}
