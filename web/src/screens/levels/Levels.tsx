/** Reading the floor: the drawing says where the rod stands, the keys take the reading, and the round goes on by itself. */
import { useState } from "preact/hooks";
import { t } from "../../words";
import { cornersOf } from "../common/roomFigure";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfRoom } from "../common/route";
import { useAwake } from "../common/useAwake";
import { useRoom } from "../common/useRoom";
import { LevelsDrawing } from "./LevelsDrawing";
import { Opened, Reading, type Tapped } from "./Reading";
import type { Taking } from "./take";
import { subfloorIn, workIn } from "./work";

export function Levels({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const [tapped, setTapped] = useState<Tapped | null>(null);
  const [taking, setTaking] = useState<Taking>([]);
  if (!room) return <Missing />;
  const work = workIn(room, subfloorIn(room), taking);
  const hasOutline = cornersOf(room.fields.outline).length >= 3;
  return (
    <RoomFrame room={room} step="levels" still={hasOutline ? "keys" : "thumb"} drawing={<LevelsDrawing work={work} onOpen={(reading) => setTapped({ id: reading, isPlace: true })} />}>
      {hasOutline ? <Reading work={work} onTaking={setTaking} onOpen={(reading) => setTapped({ id: reading, isPlace: false })} /> : (
        <div class="stack">
          <p class="notice">{t("levels.no_outline")}</p>
          <Link to={pathOfRoom(id, "outline")} class="button main wide">{t("step.outline")}</Link>
        </div>
      )}
      <Opened work={work} tapped={tapped} onTapped={setTapped} />
    </RoomFrame>
  );
}
