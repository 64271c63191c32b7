/** One photo, as large as the screen: when it was taken, a note, where it stands, deleting it. */
import { deleteRecord, editPhoto, mayWrite, pictureOf, sendPhotoAgain, standingOfPhoto, thumbnailOf, type Row } from "../../state";
import { momentText } from "../../units";
import { reader, t, told } from "../../words";
import { Dialog } from "../common/Dialog";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";

interface PhotoProps {
  readonly photo: Row<"photo">;
}

/** The small one stands in until the whole one is here: same place, same shape, nothing jumps. */
function Picture({ photo }: PhotoProps) {
  const { hash = "", width, height, note } = photo.fields;
  const [whole, small] = [pictureOf(hash ?? "").value, thumbnailOf(hash ?? "").value];
  const address = whole ?? small;
  return (
    <>
      <div class="photo-frame" style={{ aspectRatio: `${width ?? 4} / ${height ?? 3}` }}>
        {address !== null && <img src={address} alt={note ?? t("photos.sheet")} data-testid={whole === null ? "photo-small" : "photo-whole"} />}
      </div>
      {whole === null && <p class="quiet small" data-testid="photo-missing">{t(small === null ? "photos.no_office" : "photos.small_only")}</p>}
    </>
  );
}

function Standing({ photo }: PhotoProps) {
  const standing = standingOfPhoto(photo);
  if (standing === null) return null;
  if (standing === "waiting") return <p class="notice" data-testid="photo-standing">{t("photos.waiting")}</p>;
  const again = () => void saved(sendPhotoAgain(photo.fields.hash ?? ""));
  return (
    <>
      <p class="caution" data-testid="photo-standing">{told("photo", standing, {}, standing)}</p>
      <button type="button" class="button wide" data-testid="send-photo-again" onClick={again}>{t("photos.send_again")}</button>
    </>
  );
}

function Changes({ photo, onClose }: PhotoProps & { onClose: () => void }) {
  const draft = `photo-note:${photo.id}`;
  const note = photo.fields.note ?? "";
  const keep = () => void saved(editPhoto(photo.id, typedIn(draft, note).trim() || null, draft)).then((isSaved) => { if (isSaved) onClose(); });
  const remove = () => void saved(deleteRecord("photo", photo.id)).then((isSaved) => { if (isSaved) onClose(); });
  return (
    <>
      <TextField label={t("photos.note")} draft={draft} testid="photo-note" otherwise={note} />
      <div class="row even">
        <button type="button" class="button main" data-testid="keep-photo-note" onClick={keep}>{t("keep")}</button>
        <button type="button" class="button danger" data-testid="delete-photo" onClick={remove}>{t("photos.delete")}</button>
      </div>
      <p class="quiet small">{t("deleted.undo")}</p>
    </>
  );
}

function Facts({ photo }: PhotoProps) {
  const { taken_at: takenAt, reading_id: reading, note } = photo.fields;
  return (
    <dl class="inputs">
      {takenAt && <div><dt>{t("photos.taken")}</dt><dd>{momentText(takenAt, reader.value)}</dd></div>}
      {reading && <div><dt>{t("photos.of_reading")}</dt><dd>{t("yes")}</dd></div>}
      {note && !mayWrite.value && <div><dt>{t("photos.note")}</dt><dd>{note}</dd></div>}
    </dl>
  );
}

export function PhotoSheet({ photo, onClose }: PhotoProps & { onClose: () => void }) {
  return (
    <Dialog title={t("photos.sheet")} testid="photo-sheet" onClose={onClose}>
      <div class="stack">
        <Picture photo={photo} />
        <Standing photo={photo} />
        <Facts photo={photo} />
        {mayWrite.value && <Changes photo={photo} onClose={onClose} />}
        <Link to={pathOfHistory("photo", photo.id)} class="button wide" testid="photo-history">{t("history.open")}</Link>
      </div>
    </Dialog>
  );
}
