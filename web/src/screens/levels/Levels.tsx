/** Reading the floor: the drawing says where the rod stands, the keys take the reading, and the round goes on by itself. */
import { useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { FIRST_SETUP, mayWrite, readSkipped, skipPlace, type Row } from "../../state";
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import { Entry } from "../common/Entry";
import { cornersOf } from "../common/roomFigure";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfRoom } from "../common/route";
import { saved } from "../common/saving";
import { useAwake } from "../common/useAwake";
import { useRoom, type RoomView } from "../common/useRoom";
import { Elsewhere } from "./Elsewhere";
import { LayingEntry } from "./LayingEntry";
import { LevelNotes, LevelSheet, type Sheet } from "./LevelNotes";
import { LevelsDrawing } from "./LevelsDrawing";
import { markName } from "./names";
import { PlaceSheet } from "./PlaceSheet";
import { ReadingDialog } from "./ReadingDialog";
import { isSamePlace, placesRead, readingDraft } from "./round";
import { SuspectBand } from "./SuspectBand";
import { useTaking, type Taking } from "./take";
import { workIn, type Work } from "./work";

function isReadAt({ readings }: RoomView, place: Place): boolean {
  return placesRead(readings).some((at) => isSamePlace(at, place));
}

function whatOf({ round, room, isUntied }: Work): string {
  const { current, left, skipped, done, of, isTie } = round;
  const reading = room.readings.length + 1;
  if (current && "mark" in current) return t(isTie ? "levels.mark_tie" : "levels.mark_here", { mark: markName(room.fields, current.mark) });
  if (current && "again" in current) return t("levels.again_here");
  if (isTie || (current && isUntied && isReadAt(room, current.place))) return t("levels.tie_here", { reading });
  if (current) return t(left.length > 0 ? "levels.here" : "levels.one_more", { reading, done, of });
  return skipped.length > 0 ? t("levels.all_but_skipped", { skipped: skipped.length }) : t("levels.all_read");
}

/** Passing over the place at hand, going back to those that were passed over, or on to the bed when all is read. */
function Skipping({ room, round }: Work) {
  const { current, left, skipped, isTie } = round;
  const place = current && "place" in current && !isTie ? left.find((other) => isSamePlace(other, current.place)) : undefined;
  if (place) return <button type="button" class="button" data-testid="skip-place" onClick={() => void saved(skipPlace(room.id, place))}>{t("levels.skip")}</button>;
  if (current) return null;
  if (skipped.length === 0) return room.plan ? <Link to={pathOfRoom(room.id, "bed")} class="button main" testid="on-to-bed">{t("step.bed")}</Link> : null;
  return <button type="button" class="button" data-testid="read-skipped" onClick={() => void saved(readSkipped(room.id))}>{t("levels.read_skipped")}</button>;
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

interface ReadingProps {
  readonly work: Work;
  readonly onTaking: (change: (places: Taking) => Taking) => void;
  readonly onOpen: (id: string) => void;
}

function RodEntry({ work, onTaking }: ReadingProps) {
  const { room, round, standing } = work;
  const take = useTaking(room.id, round.current, standing, onTaking);
  const draft = round.current ? readingDraft(room.id, round.current) : `reading:${room.id}`;
  return (
    <Entry
      what={whatOf(work)} draft={draft} measure="length" goesOn asleep={!round.current}
      beside={<Skipping {...work} />} nextLabel={t("keys.next")} onDone={take}
    />
  );
}

function Reading(props: ReadingProps) {
  const { work, onOpen } = props;
  const [placing, setPlacing] = useState(false);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const { room, round, standing } = work;
  const isAgain = round.current !== null && "again" in round.current;
  return (
    <>
      <SuspectBand room={room} />
      <div class="level-row">
        <LevelNotes work={work} onSheet={setSheet} />
        {mayWrite.value && <button type="button" class="button elsewhere" data-testid="place-by-tape" onClick={() => setPlacing(true)}>{t("levels.elsewhere")}</button>}
        <Last room={room} onOpen={onOpen} />
      </div>
      {mayWrite.value && ("laying" in standing && !isAgain ? <LayingEntry work={work} laying={standing.laying} /> : <RodEntry {...props} />)}
      <LevelSheet work={work} sheet={sheet} onSheet={setSheet} onOpen={onOpen} />
      {placing && <Elsewhere work={work} onClose={() => setPlacing(false)} />}
    </>
  );
}

/** What was tapped: a reading by its button, or a read place on the drawing. */
interface Tapped {
  readonly id: string;
  readonly isPlace: boolean;
}

/** Whether the place of a reading can be read again from where one stands, or was read more than once. */
function isShared({ room, standing }: Work, { fields }: Row<"reading">): boolean {
  const isOwn = "setup" in standing && (fields.setup ?? FIRST_SETUP) === standing.setup;
  const others = room.readings.filter((row) => row.fields.at && fields.at && isSamePlace(row.fields.at, fields.at));
  return !isOwn || others.length > 1;
}

function Opened({ work, tapped, onTapped }: { work: Work; tapped: Tapped | null; onTapped: (tapped: Tapped | null) => void }) {
  const { readings, plan } = work.room;
  const row = readings.find(({ id }) => id === tapped?.id);
  if (!tapped || !row) return null;
  const close = () => onTapped(null);
  if (row.fields.at && tapped.isPlace && mayWrite.value && isShared(work, row)) {
    return <PlaceSheet work={work} at={row.fields.at} onReading={(id) => onTapped({ id, isPlace: false })} onClose={close} />;
  }
  return <ReadingDialog reading={row} plan={plan} onClose={close} />;
}

export function Levels({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const [tapped, setTapped] = useState<Tapped | null>(null);
  const [taking, setTaking] = useState<Taking>([]);
  if (!room) return <Missing />;
  const work = workIn(room, taking);
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
