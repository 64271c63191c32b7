/** A note, with a picture where there is one: kept on the phone at once, sent later. */
import { useState } from "preact/hooks";
import { addEntry, addPhoto } from "../../state";
import { t } from "../../words";
import { Dialog } from "../common/Dialog";
import { FileButton } from "../common/FileButton";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";

export function NoteSheet({ room, onClose }: { room: string; onClose: () => void }) {
  const [standing, setStanding] = useState<"idle" | "making" | "no_picture">("idle");
  const draft = `note:${room}`;
  const text = typedIn(draft).trim();
  const note = { what: "note" as const, ...(text === "" ? {} : { text }) };
  const keep = () => void saved(addEntry(room, note, { draft })).then((isSaved) => { if (isSaved) onClose(); });
  const photograph = async (file: File) => {
    setStanding("making");
    const made = addPhoto(room, file, { entry: note }, { draft });
    const id = (await saved(made)) ? await made : undefined;
    if (typeof id === "string") onClose();
    else setStanding(id === null ? "no_picture" : "idle");
  };
  return (
    <Dialog title={t("note.add")} testid="note" onClose={onClose}>
      <div class="stack">
        <TextField label={t("note.words")} draft={draft} testid="note-text" />
        {standing === "no_picture" && <p class="caution" role="alert" data-testid="no-picture">{t("photos.no_picture")}</p>}
        {standing === "making"
          ? <p class="notice" role="status">{t("photos.making")}</p>
          : <div class="row even">
              <FileButton label={t("photos.take")} testid="note-take-photo" accept="image/*" camera onFile={(file) => void photograph(file)} />
              <FileButton label={t("photos.choose")} testid="note-choose-photo" accept="image/*" onFile={(file) => void photograph(file)} />
            </div>}
        <button type="button" class="button main wide" data-testid="keep-note" disabled={text === ""} onClick={keep}>{t("keep")}</button>
      </div>
    </Dialog>
  );
}
