/** A room's name and note, and deleting it. */
import { clearDraft, deleteRecord, editRoom } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Link } from "../common/Link";
import { go, pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";
import type { RoomView } from "../common/useRoom";

export function ChangeRoom({ room, onClose }: { room: RoomView; onClose: () => void }) {
  const [name, note] = [`room-name:${room.id}`, `room-note:${room.id}`];
  const keep = async () => {
    const fields = { name: typedIn(name, room.fields.name ?? "").trim(), note: typedIn(note, room.fields.note ?? "").trim() };
    if (fields.name && (await saved(editRoom(room.id, fields, { draft: name })))) {
      await saved(clearDraft(note));
      onClose();
    }
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
