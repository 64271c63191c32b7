/** Reading the finished bed: the same instrument, keys and round as for the subfloor, at the places that the check asks for. */
import { useState } from "preact/hooks";
import { FIRST_SETUP, getDraft, mayWrite, setDraft } from "../../state";
import { t } from "../../words";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { RoomFrame } from "../common/RoomFrame";
import { cornersOf } from "../common/roomFigure";
import { saved } from "../common/saving";
import { useAwake } from "../common/useAwake";
import { useRoom } from "../common/useRoom";
import { LevelsDrawing } from "../levels/LevelsDrawing";
import { setupName } from "../levels/names";
import { Opened, Reading, type Tapped } from "../levels/Reading";
import { SetupForm } from "../levels/SetupForm";
import type { Taking } from "../levels/take";
import { workIn, type Work } from "../levels/work";
import { useBed } from "./batch";

function stoodDraft(room: string, setup: string): string {
  return `stood:${room}:${setup}`;
}

/** The set-up that the subfloor was read from, where nobody has said that it still stands and nothing of the bed was read from it. */
function doubtedSetup({ room, standing, readings }: Work): string | null {
  if (!("setup" in standing) || getDraft(stoodDraft(room.id, standing.setup)) !== undefined) return null;
  const isOf = (setup: string | null | undefined) => (setup ?? FIRST_SETUP) === standing.setup;
  const hasFloor = room.readings.some(({ fields }) => fields.at && fields.stage !== "bed" && isOf(fields.setup));
  const hasBed = readings.some(({ fields }) => fields.at && isOf(fields.setup));
  return hasFloor && !hasBed ? standing.setup : null;
}

/** An instrument that was taken down stands at another height: asked once, before the first reading. */
function StillStands({ work, onMoved }: { work: Work; onMoved: () => void }) {
  const setup = doubtedSetup(work);
  if (setup === null || !mayWrite.value) return null;
  const stands = () => void saved(setDraft(stoodDraft(work.room.id, setup), "yes"));
  return (
    <div class="suspect-band" role="status" data-testid="still-stands">
      <p>{t("checking.moved", { setup: setupName(work.room, setup) })}</p>
      <button type="button" class="button" data-testid="setup-stands" onClick={stands}>{t("checking.stands")}</button>
      <button type="button" class="button" data-testid="setup-moved" onClick={onMoved}>{t("checking.was_moved")}</button>
    </div>
  );
}

export function ReadBed({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const [tapped, setTapped] = useState<Tapped | null>(null);
  const [taking, setTaking] = useState<Taking>([]);
  const [beginning, setBeginning] = useState(false);
  const of = useBed(room);
  if (!room) return <Missing />;
  if (cornersOf(room.fields.outline).length < 3) return <RoomFrame room={room} step="checking" part="read" drawing={null}><NoPlan room={room} /></RoomFrame>;
  const isReckoning = of.isReckoning || taking.length > 0; // what is on its way into storage is worked out next
  const work = workIn(room, { ...of, isReckoning }, taking);
  return (
    <RoomFrame room={room} step="checking" part="read" still="keys" drawing={<LevelsDrawing work={work} onOpen={(reading) => setTapped({ id: reading, isPlace: true })} />}>
      <StillStands work={work} onMoved={() => setBeginning(true)} />
      <Reading work={work} onTaking={setTaking} onOpen={(reading) => setTapped({ id: reading, isPlace: false })} />
      <Opened work={work} tapped={tapped} onTapped={setTapped} />
      {beginning && <SetupForm work={work} setup={null} onClose={() => setBeginning(false)} />}
    </RoomFrame>
  );
}
