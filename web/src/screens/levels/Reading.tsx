/** Reading with rod and keys, the subfloor or the finished bed: what is read now, what was read last, what looks mis-read. */
import { useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { clearDraft, FIRST_SETUP, mayWrite, type Row } from "../../state";
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import { Entry } from "../common/Entry";
import { Link } from "../common/Link";
import { pathOfRoom } from "../common/route";
import { saved } from "../common/saving";
import { Elsewhere } from "./Elsewhere";
import { LayingEntry } from "./LayingEntry";
import { LevelNotes, LevelSheet, type Sheet } from "./LevelNotes";
import { markName } from "./names";
import { pass, takeUp } from "./passing";
import { PlaceSheet } from "./PlaceSheet";
import { ReadingDialog } from "./ReadingDialog";
import { isSamePlace, placesRead, readingDraft, targetDraft } from "./round";
import { SuspectBand } from "./SuspectBand";
import { useTaking, type Taking } from "./take";
import { useTakeBack } from "./takeBack";
import type { Work } from "./work";

function isReadAt({ readings, stage }: Work, place: Place): boolean {
  return placesRead(readings, stage).some((at) => isSamePlace(at, place));
}

function whatOf(work: Work): string {
  const { round, room, isUntied, readings } = work;
  const { current, left, skipped, done, of, isTie } = round;
  const reading = readings.length + 1;
  if (current && "mark" in current) return t(isTie ? "levels.mark_tie" : "levels.mark_here", { mark: markName(room.fields, current.mark) });
  if (current && "again" in current) return t("levels.again_here");
  if (isTie || (current && isUntied && isReadAt(work, current.place))) return t("levels.tie_here", { reading });
  if (current && work.stage === "bed") return t(left.length > 0 ? "checking.read_here" : "levels.one_more", { reading, left: left.length });
  if (current) return t(left.length > 0 ? "levels.here" : "levels.one_more", { reading, done, of });
  if (work.isReckoning) return t("checking.reckoning");
  return skipped.length > 0 ? t("levels.all_but_skipped", { skipped: skipped.length }) : t("levels.all_read");
}

/** Passing over the place at hand, going back to those that were passed over, or on to the bed when all is read. */
function Skipping({ room, stage, round }: Work) {
  const { current, left, skipped, isTie } = round;
  const place = current && "place" in current && !isTie ? left.find((other) => isSamePlace(other, current.place)) : undefined;
  const skip = (at: Place) => { void clearDraft(targetDraft(room.id, stage)); void saved(pass(room, stage, at)); };
  if (place) return <button type="button" class="button" data-testid="skip-place" onClick={() => skip(place)}>{t("levels.skip")}</button>;
  if (current) return null;
  if (skipped.length === 0 && stage === "bed") return <Link to={pathOfRoom(room.id, "checking")} class="button main" testid="on-to-check">{t("checking.see")}</Link>;
  if (skipped.length === 0) return room.plan ? <Link to={pathOfRoom(room.id, "bed")} class="button main" testid="on-to-bed">{t("step.bed")}</Link> : null;
  return <button type="button" class="button" data-testid="read-skipped" onClick={() => void saved(takeUp(room, stage))}>{t("levels.read_skipped")}</button>;
}

function Last({ readings, onOpen }: { readings: Work["readings"]; onOpen: (id: string) => void }) {
  const last = readings.at(-1);
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
  const { room, stage, round } = work;
  const take = useTaking(work, onTaking);
  const draft = round.current ? readingDraft(room.id, stage, round.current) : `reading:${room.id}`;
  return (
    <Entry
      what={whatOf(work)} draft={draft} measure="length" goesOn asleep={!round.current}
      beside={<Skipping {...work} />} nextLabel={t("keys.next")} onDone={take}
    />
  );
}

/** The keys with all that belongs to them: from where one reads, other places, the last reading. */
export function Reading(props: ReadingProps) {
  const { work, onOpen } = props;
  const [placing, setPlacing] = useState(false);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const { round, standing, readings } = work;
  useTakeBack(work);
  const isAgain = round.current !== null && "again" in round.current;
  return (
    <>
      <SuspectBand work={work} />
      <div class="level-row">
        <LevelNotes work={work} onSheet={setSheet} />
        {mayWrite.value && <button type="button" class="button elsewhere" data-testid="place-by-tape" onClick={() => setPlacing(true)}>{t("levels.elsewhere")}</button>}
        <Last readings={readings} onOpen={onOpen} />
      </div>
      {mayWrite.value && ("laying" in standing && !isAgain ? <LayingEntry work={work} laying={standing.laying} /> : <RodEntry {...props} />)}
      <LevelSheet work={work} sheet={sheet} onSheet={setSheet} onOpen={onOpen} />
      {placing && <Elsewhere work={work} onClose={() => setPlacing(false)} />}
    </>
  );
}

/** What was tapped: a reading by its button, or a read place on the drawing. */
export interface Tapped {
  readonly id: string;
  readonly isPlace: boolean;
}

/** Whether the place of a reading can be read again from where one stands, or was read more than once. */
function isShared({ readings, standing }: Work, { fields }: Row<"reading">): boolean {
  const isOwn = "setup" in standing && (fields.setup ?? FIRST_SETUP) === standing.setup;
  const others = readings.filter((row) => row.fields.at && fields.at && isSamePlace(row.fields.at, fields.at));
  return !isOwn || others.length > 1;
}

/** What was tapped, as a sheet. */
export function Opened({ work, tapped, onTapped }: { work: Work; tapped: Tapped | null; onTapped: (tapped: Tapped | null) => void }) {
  const { readings, room: { plan } } = work;
  const row = readings.find(({ id }) => id === tapped?.id);
  if (!tapped || !row) return null;
  const close = () => onTapped(null);
  if (row.fields.at && tapped.isPlace && mayWrite.value && isShared(work, row)) {
    return <PlaceSheet work={work} at={row.fields.at} onReading={(id) => onTapped({ id, isPlace: false })} onClose={close} />;
  }
  return <ReadingDialog reading={row} plan={plan} onClose={close} />;
}
