/** Marks that can be read from every set-up; a benchmark where the height is known. */
import { useState } from "preact/hooks";
import { clearDraft, keepMark, mayWrite, removeMark, setDraft } from "../../state";
import { heightText } from "../../units";
import type { Mark } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { formOf, type Taped } from "../common/form";
import { saved } from "../common/saving";
import { TapedField } from "../common/TapedField";
import { TextField, typedIn } from "../common/TextField";
import { markName } from "./names";
import { draftFromTarget, targetDraft } from "./round";
import type { Work } from "./work";

interface SheetProps {
  readonly work: Work;
  readonly onClose: () => void;
}

function heightOf({ room }: Work, mark: Mark): string {
  if (mark.height != null) return t("mark.known", { height: mark.height });
  const found = room.plan?.levels.marks.find(({ id }) => id === mark.id);
  if (found?.z != null) return t("mark.found", { height: found.z, sigma: found.sigma ?? 0 });
  return room.readings.some(({ fields }) => fields.mark === mark.id) ? t("mark.read") : t("mark.unread");
}

function MarkLine({ work, mark, onChange, onClose }: SheetProps & { readonly mark: Mark; readonly onChange: () => void }) {
  const read = () => { void setDraft(targetDraft(work.room.id, work.stage), draftFromTarget({ mark: mark.id })); onClose(); };
  return (
    <li class="set-up" data-testid="mark">
      <div><strong>{markName(work.room.fields, mark.id)}</strong><p class="quiet" data-testid="mark-height">{heightOf(work, mark)}</p></div>
      {mayWrite.value && (
        <div class="row even">
          {"setup" in work.standing && <button type="button" class="button main" data-testid="read-mark" onClick={read}>{t("mark.read_now")}</button>}
          <button type="button" class="button" data-testid="change-mark" onClick={onChange}>{t("change")}</button>
        </div>
      )}
    </li>
  );
}

/** A new mark, or another name or height for one. */
function MarkForm({ work: { room }, mark, onClose }: SheetProps & { readonly mark: Mark | null }) {
  const key = `mark-form:${room.id}:${mark?.id ?? "new"}`;
  const begin: Taped | null = mark?.height == null ? null : { mm: mark.height, typed: room.fields.typed?.[`marks.${mark.id}`] ?? heightText(mark.height, reader.value) };
  const form = formOf<{ readonly height: Taped | null }>(key, { height: begin });
  const name = typedIn(`${key}:name`, mark?.name).trim();
  const { height } = form.values;
  const ended = (kept: Promise<unknown>) => void saved(kept.then(() => clearDraft(`${key}:name`))).then((isSaved) => { if (isSaved) onClose(); });
  const keep = () => ended(keepMark(room.id, { ...(mark ? { id: mark.id } : {}), name, height: height?.mm ?? null }, height?.typed, { draft: key }));
  const onIt = room.readings.filter(({ fields }) => mark && fields.mark === mark.id).map(({ id }) => id);
  return (
    <Dialog title={t(mark ? "mark.change" : "mark.new")} testid="mark-form" onClose={onClose}>
      <TextField label={t("mark.name")} draft={`${key}:name`} testid="mark-name" otherwise={mark?.name ?? ""} />
      <TapedField name={`${key}:height`} label={t("mark.height")} note={t("mark.height_more")} signed value={height} onSet={(set) => form.set({ height: set })} />
      {height && <button type="button" class="button wide" data-testid="mark-unknown" onClick={() => form.set({ height: null })}>{t("mark.forget_height")}</button>}
      <button type="button" class="button main wide" data-testid="keep-mark" disabled={name === ""} onClick={keep}>{t(mark ? "keep" : "mark.add")}</button>
      {mark && <button type="button" class="button danger wide" data-testid="remove-mark" onClick={() => ended(removeMark(room.id, mark.id, onIt))}>{t("mark.remove", { count: onIt.length })}</button>}
    </Dialog>
  );
}

export function MarksSheet({ work, onClose }: SheetProps) {
  const [changing, setChanging] = useState<Mark | "new" | null>(null);
  const marks = work.room.fields.marks ?? [];
  if (changing) return <MarkForm work={work} mark={changing === "new" ? null : changing} onClose={() => setChanging(null)} />;
  return (
    <Dialog title={t("mark.title")} testid="marks" onClose={onClose}>
      <p class="quiet">{t("mark.more")}</p>
      <ul class="lines">{marks.map((mark) => <MarkLine key={mark.id} work={work} mark={mark} onChange={() => setChanging(mark)} onClose={onClose} />)}</ul>
      {mayWrite.value && <button type="button" class="button main wide" data-testid="new-mark" onClick={() => setChanging("new")}>{t("mark.new")}</button>}
    </Dialog>
  );
}
