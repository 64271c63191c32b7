/** Where a step needs readings that are not there yet: what is missing, and the way to it. */
import { t } from "../../words";
import { Link } from "./Link";
import { pathOfRoom } from "./route";
import type { RoomView } from "./useRoom";

function missingText(room: RoomView): string {
  if (!room.fields.outline) return t("noplan.outline");
  return room.readings.length < 3 ? t("noplan.levels") : t("noplan.problems");
}

export function NoPlan({ room }: { room: RoomView }) {
  if (room.state.status !== "problems" && room.readings.length >= 3 && room.fields.outline) return null;
  const step = room.fields.outline ? "levels" : "outline";
  return (
    <div class="stack">
      <p>{missingText(room)}</p>
      <Link to={pathOfRoom(room.id, step)} class="button main wide" testid="to-missing-step">{t(`step.${step}`)}</Link>
    </div>
  );
}
