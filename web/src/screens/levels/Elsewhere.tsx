/** Another place for the rod than the one proposed: by two tapes, off a wall, or on a mark. */
import { useState } from "preact/hooks";
import { isOnFloor } from "../../drawing/figure";
import type { Place } from "../../drawing/camera";
import { setDraft } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { cornersOf, tapedLengths } from "../common/roomFigure";
import { formOf } from "../common/form";
import { NO_OFFSET, OffsetFields, placeFromOffset } from "../common/OffsetFields";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { layTo } from "./laying";
import { markName } from "./names";
import { draftFromTarget, targetDraft, type Target } from "./round";
import { TwoTapes } from "./TwoTapes";
import type { Work } from "./work";

type Way = "walls" | "tapes" | "mark";

interface WayProps {
  readonly room: RoomView;
  readonly onPlace: (at: Place) => void;
}

function OffWalls({ room, onPlace }: WayProps) {
  const form = formOf(`offset:${room.id}`, NO_OFFSET);
  const corners = cornersOf(room.fields.outline);
  const at = placeFromOffset(corners, form.values);
  const isHere = at !== null && isOnFloor(corners, room.fields.outline?.cutouts ?? [], at);
  return (
    <div class="stack">
      <OffsetFields lengths={tapedLengths(room.fields.outline)} value={form.values} onChange={form.set} />
      {at && !isHere && <p class="caution" role="status">{t("levels.outside")}</p>}
      <button type="button" class="button main wide" data-testid="stand-here" disabled={!isHere} onClick={() => { if (at) { form.clear(); onPlace(at); } }}>{t("levels.stand")}</button>
    </div>
  );
}

function Marks({ room, onMark }: { room: RoomView; onMark: (mark: string) => void }) {
  const marks = room.fields.marks ?? [];
  if (marks.length === 0) return <p class="quiet">{t("mark.none")}</p>;
  return (
    <div class="stack tight">
      {marks.map(({ id }) => <button key={id} type="button" class="button wide" data-testid="elsewhere-mark" onClick={() => onMark(id)}>{markName(room.fields, id)}</button>)}
    </div>
  );
}

export function Elsewhere({ work, onClose }: { work: Work; onClose: () => void }) {
  const { room, stage, standing } = work;
  const [way, setWay] = useState<Way>("walls");
  const isLaid = "laying" in standing;
  const ways: readonly Way[] = isLaid ? ["walls", "tapes"] : ["walls", "tapes", "mark"];
  const lead = (target: Target) => void saved(setDraft(targetDraft(room.id, stage), draftFromTarget(target))).then(onClose);
  const place = (at: Place) => {
    if (isLaid) {
      layTo(work, at);
      onClose();
    } else lead({ place: at });
  };
  return (
    <Dialog title={t("levels.elsewhere")} testid="offset" onClose={onClose}>
      <Choice label={t("levels.elsewhere_how")} name="way" quiet options={ways.map((value) => ({ value, label: t(`way.${value}`) }))} value={way} onChoose={setWay} />
      {way === "walls" && <OffWalls room={room} onPlace={place} />}
      {way === "tapes" && <TwoTapes room={room} stage={stage} onPlace={place} />}
      {way === "mark" && <Marks room={room} onMark={(mark) => lead({ mark })} />}
    </Dialog>
  );
}
