/** One job: its rooms, each with its figure in small. */
import { useState } from "preact/hooks";
import { PaperSheet } from "../../drawing/Sheet";
import { clearDraft, createRoom, deleteRecord, editJob, isForeman, jobOf, mayWrite, readingsOf, roomsOf, type Row } from "../../state";
import { t } from "../../words";
import { NextWords } from "../board/BoardRow";
import { boardRow } from "../board/rows";
import { useBoard } from "../board/useBoard";
import { changedFields } from "../common/changed";
import { Dialog } from "../common/Dialog";
import { JobPlace } from "../common/JobPlace";
import { bareScene } from "../common/roomFigure";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { SignedLine } from "../common/SignedLine";
import { ToDecide } from "../common/ToDecide";
import { go, pathOfHistory, pathOfOrder, pathOfRoom } from "../common/route";
import { saved, savedIfAny } from "../common/saving";
import { useNow } from "../common/useNow";
import { TextField, typedIn } from "../common/TextField";
import { Crew } from "./Crew";
import { SaveJobFile } from "./JobFile";

const EVERY_MS = 20_000;
const SMALL = { width: 116, height: 84 };

/** What the room waits for next, once it is worked out. */
function NextLine({ room, now }: { room: Row<"room">; now: number }) {
  const { next, group } = boardRow(room, now);
  return next === null || group === "bare" ? null : <span class="next-line" data-testid="next-line"><NextWords next={next} now={now} /></span>;
}

function RoomCard({ room, now }: { room: Row<"room">; now: number }) {
  const readings = readingsOf(room.id).value.length;
  const scene = bareScene(room.fields);
  return (
    <li>
      <Link to={pathOfRoom(room.id)} class="card room-card" testid="room">
        <span class="thumb">{scene.outline.length > 0 && <PaperSheet scene={scene} window={SMALL} name={`small-${room.id}`} margin={8} />}</span>
        <span>
          <span class="card-name">{room.fields.name}</span>
          <span class="card-fact">{readings === 0 ? t("room.no_readings") : t("course.levels", { readings })}</span>
          <NextLine room={room} now={now} />
          <ToDecide room={room.id} />
          <SignedLine room={room.id} />
        </span>
      </Link>
    </li>
  );
}

function NewRoom({ job }: { job: string }) {
  const draft = `new-room:${job}`;
  const name = typedIn(draft).trim();
  const begin = async () => {
    let made = "";
    if (await saved(createRoom(job, { name }, { draft }).then((id) => { made = id; }))) go(pathOfRoom(made, "outline"));
  };
  return (
    <form class="stack tight" onSubmit={(event) => { event.preventDefault(); if (name) void begin(); }}>
      <TextField label={t("room.new_name")} draft={draft} testid="room-name" />
      <button type="submit" class="button main wide" disabled={!name} data-testid="begin-room">{t("room.begin")}</button>
    </form>
  );
}

function ChangeJob({ job, onClose }: { job: Row<"job">; onClose: () => void }) {
  const [name, place] = [`job-name:${job.id}`, `job-place:${job.id}`];
  const change = async () => {
    const { name: oldName, place: oldPlace } = job.fields;
    const typed = { name: typedIn(name, oldName ?? "").trim(), place: typedIn(place, oldPlace ?? "").trim() };
    const fields = changedFields({ name: oldName, place: oldPlace }, typed);
    if (!typed.name || !(await savedIfAny(fields, () => editJob(job.id, fields, { draft: name })))) return;
    await saved(Promise.all([clearDraft(name), clearDraft(place)]));
    onClose();
  };
  const remove = async () => { if (await saved(deleteRecord("job", job.id))) go("/"); };
  return (
    <Dialog title={t("job.change")} testid="change-job" onClose={onClose}>
      <div class="stack">
        <TextField label={t("job.name")} draft={name} testid="job-name" otherwise={job.fields.name ?? ""} />
        <TextField label={t("job.place")} draft={place} testid="job-place" otherwise={job.fields.place ?? ""} />
        <button type="button" class="button main wide" data-testid="keep-job" onClick={() => void change()}>{t("keep")}</button>
        <JobPlace job={job} />
        {isForeman.value && <Crew job={job} />}
        <Link to={pathOfHistory("job", job.id)} class="button wide" testid="job-history">{t("history.open")}</Link>
        <button type="button" class="button danger wide" data-testid="delete-job" onClick={() => void remove()}>{t("job.delete")}</button>
        <p class="quiet small">{t("deleted.undo")}</p>
      </div>
    </Dialog>
  );
}

export function Job({ id }: { id: string }) {
  const [changing, setChanging] = useState(false);
  const now = useNow(EVERY_MS);
  useBoard(id);
  const job = jobOf(id);
  if (!job || job.fields.deleted) return <Missing />;
  const rooms = roomsOf(id).value;
  return (
    <main class="page" data-testid="job-page">
      <div class="title-row">
        <div><h1>{job.fields.name}</h1>{job.fields.place && <p class="quiet">{job.fields.place}</p>}</div>
        {mayWrite.value
          ? <button type="button" class="button" data-testid="change-job" onClick={() => setChanging(true)}>{t("change")}</button>
          : <Link to={pathOfHistory("job", id)} class="button" testid="job-history">{t("history.open")}</Link>}
      </div>
      <ul class="cards">{rooms.map((room) => <RoomCard key={room.id} room={room} now={now} />)}</ul>
      {rooms.length > 0 && <Link to={pathOfOrder(id)} class="button wide" testid="job-order">{t("order.job")}</Link>}
      {mayWrite.value && <NewRoom job={id} />}
      <SaveJobFile key={id} job={id} />
      {changing && <ChangeJob job={job} onClose={() => setChanging(false)} />}
    </main>
  );
}
