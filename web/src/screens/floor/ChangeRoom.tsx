/** A room's name and note, and deleting it. */
import { clearDraft, deleteRecord, editRoom } from "../../state";
import { t } from "../../words";
import { changedFields } from "../common/changed";
import { Dialog } from "../common/Dialog";
import { Link } from "../common/Link";
import { go, pathOfHistory } from "../common/route";
import { saved, savedIfAny } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import type { RoomView } from "../common/useRoom";

export function ChangeRoom({ room, onClose }: { room: RoomView; onClose: () => void }) {
  const [name, note] = [`room-name:${room.id}`, `room-note:${room.id}`];
  const keep = async () => {
    const { name: oldName, note: oldNote } = room.fields;
    const typed = { name: typedIn(name, oldName ?? "").trim(), note: typedIn(note, oldNote ?? "").trim() };
    const fields = changedFields({ name: oldName, note: oldNote }, typed);
    if (!typed.name || !(await savedIfAny(fields, () => editRoom(room.id, fields, { draft: name })))) return;
    await saved(Promise.all([clearDraft(name), clearDraft(note)]));
    onClose();
  };
  const remove = async () => { if (await saved(deleteRecord("room", room.id))) go(`/job/${room.fields.job_id ?? ""}`); };
  return (
    <Dialog title={t("room.change")} testid="change-room-sheet" onClose={onClose}>
      <div class="stack">
        <TextField label={t("room.name")} draft={name} testid="room-name" otherwise={room.fields.name ?? ""} />
        <TextField label={t("room.note")} draft={note} testid="room-note" otherwise={room.fields.note ?? ""} />
        <button type="button" class="button main wide" data-testid="keep-room" onClick={() => void keep()}>{t("keep")}</button>
        <Link to={pathOfHistory("room", room.id)} class="button wide" testid="room-history">{t("history.open")}</Link>
        <button type="button" class="button danger wide" data-testid="delete-room" onClick={() => void remove()}>{t("room.delete")}</button>
        <p class="quiet small">{t("deleted.undo")}</p>
      </div>
    </Dialog>
  );
}
