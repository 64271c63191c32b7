/** The day book: what was stopped, who helped, what was noted, with photos. Each line can be opened and corrected. */
import { useState } from "preact/hooks";
import { deleteRecord, editEntry, entriesOf, mayWrite, photosOfEntry, type Row } from "../../state";
import { clockText, momentText } from "../../units";
import { reader, t, told } from "../../words";
import { isSameDay } from "../common/clockTime";
import { Dialog } from "../common/Dialog";
import { Link } from "../common/Link";
import { Moment } from "../common/Moment";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import { PhotoStrip } from "../photos/PhotoStrip";
import { NoteSheet } from "./NoteSheet";

const FIRST_SHOWN = 6;

function whenText(at: string): string {
  return isSameDay(Date.parse(at), Date.now()) ? clockText(at, reader.value) : momentText(at, reader.value);
}

/** What the line says beside its kind. */
function wordsOf({ fields }: Row<"entry">): string {
  if (fields.what === "habit" || fields.what === "habit_off") return told("habit", fields.code ?? "", {}, fields.code ?? "");
  if (fields.what === "milestone") return told("milestone", fields.code ?? "", {}, fields.code ?? "");
  return fields.text ?? fields.code ?? fields.rail ?? "";
}

function EntrySheet({ room, row, onClose }: { room: string; row: Row<"entry">; onClose: () => void }) {
  const { id, fields } = row;
  const lasts = fields.what === "stopped" || fields.what === "helper";
  const draft = `entry-text:${id}`;
  const keep = () => void saved(editEntry(id, { text: typedIn(draft, fields.text ?? "").trim() || null }, { draft })).then((isSaved) => { if (isSaved) onClose(); });
  const remove = () => void saved(deleteRecord("entry", id)).then((isSaved) => { if (isSaved) onClose(); });
  return (
    <Dialog title={fields.what ? t(`value.entry_${fields.what}`) : ""} testid="entry-sheet" onClose={onClose}>
      <div class="stack">
        {wordsOf(row) !== "" && fields.what !== "note" && <p>{wordsOf(row)}</p>}
        <div class="stack tight">
          <Moment name={`${id}:at`} testid="entry-at" label={t("named.entry.at")} at={fields.at} canRemove={false} onSet={(at) => void saved(editEntry(id, { at }))} />
          {lasts && <Moment name={`${id}:until`} testid="entry-until" label={t("named.entry.until")} at={fields.until} onSet={(until) => void saved(editEntry(id, { until }))} />}
        </div>
        {mayWrite.value && <TextField label={t("note.words")} draft={draft} testid="entry-text" otherwise={fields.text ?? ""} />}
        {mayWrite.value && <button type="button" class="button main wide" data-testid="keep-entry" onClick={keep}>{t("keep")}</button>}
        <PhotoStrip room={room} entry={id} />
        <div class="row even">
          <Link to={pathOfHistory("entry", id)} class="button" testid="entry-history">{t("history.open")}</Link>
          {mayWrite.value && <button type="button" class="button danger" data-testid="remove-entry" onClick={remove}>{t("remove")}</button>}
        </div>
      </div>
    </Dialog>
  );
}

function EntryLine({ row, onOpen }: { row: Row<"entry">; onOpen: () => void }) {
  const { fields } = row;
  const photos = photosOfEntry(row.id).length;
  return (
    <li>
      <button type="button" class="place-line" data-testid="entry-line" onClick={onOpen}>
        <strong>{fields.what ? t(`value.entry_${fields.what}`) : ""}</strong>
        <span>{whenText(fields.at ?? "")}{fields.until && ` \u2013 ${whenText(fields.until)}`}</span>
        {wordsOf(row) !== "" && <span>{wordsOf(row)}</span>}
        {photos > 0 && <span class="quiet">{t("note.photos", { count: photos })}</span>}
      </button>
    </li>
  );
}

export function DayBook({ room }: { room: string }) {
  const [opened, setOpened] = useState<string | null>(null);
  const [isNoting, setNoting] = useState(false);
  const [isWhole, setWhole] = useState(false);
  const rows = [...entriesOf(room).value].reverse();
  const row = rows.find(({ id }) => id === opened);
  return (
    <section class="stack tight" data-testid="day-book">
      <h3>{t("note.title")}</h3>
      {mayWrite.value && <button type="button" class="button wide" data-testid="add-note" onClick={() => setNoting(true)}>{t("note.add")}</button>}
      <ul class="places">{(isWhole ? rows : rows.slice(0, FIRST_SHOWN)).map((one) => <EntryLine key={one.id} row={one} onOpen={() => setOpened(one.id)} />)}</ul>
      {!isWhole && rows.length > FIRST_SHOWN && <button type="button" class="button plain" data-testid="whole-day-book" onClick={() => setWhole(true)}>{t("note.all", { count: rows.length })}</button>}
      {row && <EntrySheet room={room} row={row} onClose={() => setOpened(null)} />}
      {isNoting && <NoteSheet room={room} onClose={() => setNoting(false)} />}
    </section>
  );
}
