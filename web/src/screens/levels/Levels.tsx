/** Reading the floor: the drawing says where the rod stands, the keys take the reading, and the round goes on by itself. */
import { useCallback, useMemo, useRef, useState } from "preact/hooks";
import { isOnFloor } from "../../drawing/figure";
import { Drawing } from "../../drawing/Drawing";
import type { Place } from "../../drawing/camera";
import type { ScenePoint } from "../../drawing/scene";
import { addReading, clearDraft, getDraft, mayWrite, preferences, setDraft } from "../../state";
import { lengthText, markText } from "../../units";
import { reader, t } from "../../words";
import { Entry } from "../common/Entry";
import { cornersOf, roomScene } from "../common/roomFigure";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfRoom } from "../common/route";
import { saved } from "../common/saving";
import { useAwake } from "../common/useAwake";
import { useRoom, type RoomView } from "../common/useRoom";
import { LevelNotes } from "./LevelNotes";
import { OffsetDialog } from "./OffsetDialog";
import { ReadingDialog } from "./ReadingDialog";
import { placeDraft, readingDraft, roundOf, type Round } from "./round";

function readPoints(room: RoomView): readonly ScenePoint[] {
  return room.readings.flatMap(({ id, fields }) =>
    fields.at && fields.stage !== "bed" ? [{ id, at: fields.at, label: markText(lengthText(fields.down ?? 0, reader.value)), kind: "read" as const }] : [],
  );
}

function pointsOf(room: RoomView, { left, current }: Round): readonly ScenePoint[] {
  const proposed = left.map((at, index): ScenePoint => ({ id: `proposed-${index}`, at, label: "", kind: "proposed" }));
  const here: readonly ScenePoint[] = current ? [{ id: "current", at: current, label: "", kind: "current" }] : [];
  return [...proposed, ...readPoints(room), ...here];
}

/** Places whose reading is on its way into storage: the round has gone on from them already. */
type Taking = readonly Place[];
type Take = (down: number, typed: string) => void;

/** Takes readings without waiting for the storage; one that could not be saved comes back with what was typed. */
function useTaking(roomId: string, at: Place | null, onTaking: (change: (places: Taking) => Taking) => void): Take {
  const busy = useRef(new Set<string>()).current;
  return useCallback((down: number, typed: string) => {
    const draft = at ? readingDraft(roomId, at) : "";
    if (!at || busy.has(draft)) return;
    busy.add(draft);
    onTaking((places) => [...places, at]);
    if (getDraft(placeDraft(roomId)) !== undefined) void saved(clearDraft(placeDraft(roomId)));
    if ("vibrate" in navigator) navigator.vibrate(25);
    void saved(addReading(roomId, { down, at, typed, stage: "subfloor" }, { draft })).then(() => {
      busy.delete(draft);
      onTaking((places) => places.filter((place) => place !== at));
    });
  }, [roomId, at]);
}

function whatOf(round: Round, readings: number): string {
  if (!round.current) return t("levels.all_read");
  return t("levels.here", { reading: readings + 1, left: round.left.length });
}

function Last({ room, onOpen }: { room: RoomView; onOpen: (id: string) => void }) {
  const last = room.readings.at(-1);
  if (!last) return null;
  return (
    <button type="button" class="button last" data-testid="last-reading" onClick={() => onOpen(last.id)}>
      <span class="small">{t("levels.last")}</span>
      <span>{lengthText(last.fields.down ?? 0, reader.value)}</span>
    </button>
  );
}

function LevelsDrawing({ room, round, onOpen }: { room: RoomView; round: Round; onOpen: (id: string) => void }) {
  const { language, units } = preferences.value;
  const bare = useMemo(() => ({ ...roomScene(room.fields), wallLabels: [] }), [room.fields, language, units]);
  const scene = { ...bare, points: pointsOf(room, round) };
  const stand = (at: Place) => void setDraft(placeDraft(room.id), JSON.stringify(at.map(Math.round)));
  const opened = (id: string) => {
    const point = scene.points.find((other) => other.id === id);
    if (point?.kind === "proposed") stand(point.at);
    else if (point?.kind === "read") onOpen(id);
  };
  const placed = (at: Place) => { if (isOnFloor(scene.outline, scene.cutouts, at)) stand(at); };
  return <Drawing scene={scene} name="levels" onOpen={opened} onPlace={placed} />;
}

function Reading({ room, round, take, onOpen }: { room: RoomView; round: Round; take: Take; onOpen: (id: string) => void }) {
  const [placing, setPlacing] = useState(false);
  const draft = round.current ? readingDraft(room.id, round.current) : `reading:${room.id}`;
  return (
    <>
      <div class="level-row">
        <LevelNotes room={room} onOpen={onOpen} />
        {mayWrite.value && <button type="button" class="button" data-testid="place-by-tape" onClick={() => setPlacing(true)}>{t("levels.by_tape")}</button>}
        <Last room={room} onOpen={onOpen} />
      </div>
      {mayWrite.value && <Entry
        what={whatOf(round, room.readings.length)} draft={draft} measure="length" goesOn asleep={!round.current}
        nextLabel={t("keys.next")} onDone={take}
      />}
      {placing && <OffsetDialog room={room} onClose={() => setPlacing(false)} />}
    </>
  );
}

export function Levels({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const [opened, setOpened] = useState<string | null>(null);
  const draft = getDraft(placeDraft(id));
  const [taking, setTaking] = useState<Taking>([]);
  const round = useMemo(() => (room ? roundOf(room.fields, room.readings, taking, draft) : null), [room?.fields, room?.readings, taking, draft]);
  const take = useTaking(id, round?.current ?? null, setTaking);
  if (!room || !round) return <Missing />;
  const reading = room.readings.find((row) => row.id === opened);
  const hasOutline = cornersOf(room.fields.outline).length >= 3;
  return (
    <RoomFrame room={room} step="levels" still={hasOutline ? "keys" : "thumb"} drawing={<LevelsDrawing room={room} round={round} onOpen={setOpened} />}>
      {hasOutline ? <Reading room={room} round={round} take={take} onOpen={setOpened} /> : (
        <div class="stack">
          <p class="notice">{t("levels.no_outline")}</p>
          <Link to={pathOfRoom(id, "outline")} class="button main wide">{t("step.outline")}</Link>
        </div>
      )}
      {reading && <ReadingDialog reading={reading} plan={room.plan} onClose={() => setOpened(null)} />}
    </RoomFrame>
  );
}
