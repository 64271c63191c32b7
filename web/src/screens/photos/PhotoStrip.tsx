/** The photos of a room, of one reading in it, or of a line of its day book: a strip of small ones, and the ways to add another. */
import { useState } from "preact/hooks";
import { addPhoto, mayWrite, photosOf, photosOfEntry, photosOfReading, standingOfPhoto, thumbnailOf, type Row } from "../../state";
import { momentText } from "../../units";
import { reader, t } from "../../words";
import { FileButton } from "../common/FileButton";
import { saved } from "../common/saving";
import { PhotoSheet } from "./PhotoSheet";

interface PhotoStripProps {
  readonly room: string;
  /** Only this reading's photos, those of the readings it corrects included. */
  readonly reading?: string;
  /** Only those of this line of the day book. */
  readonly entry?: string;
}

type Adding = "idle" | "making" | "no_picture";

function Thumb({ photo, onOpen }: { photo: Row<"photo">; onOpen: () => void }) {
  const address = thumbnailOf(photo.fields.hash ?? "").value;
  const standing = standingOfPhoto(photo);
  const taken = momentText(photo.fields.taken_at ?? "", reader.value);
  const label = [t("photos.sheet"), taken, photo.fields.note].filter(Boolean).join(" · ");
  return (
    <button type="button" class="photo-thumb" data-testid="photo" aria-label={label} onClick={onOpen}>
      {address === null ? <span class="photo-empty" /> : <img src={address} alt="" data-testid="photo-image" />}
      {standing !== null && (
        <span class={standing === "waiting" ? "photo-mark" : "photo-mark warns"} data-testid="photo-mark">
          {t(standing === "waiting" ? "photos.waiting_mark" : "photos.not_taken_mark")}
        </span>
      )}
    </button>
  );
}

/** Adds a picture; `adding` says how it stands with it. */
function useAdding({ room, reading, entry }: PhotoStripProps): readonly [Adding, (file: File) => void] {
  const [adding, setAdding] = useState<Adding>("idle");
  const add = async (file: File) => {
    setAdding("making");
    await saved(addPhoto(room, file, { readingId: reading, entryId: entry }).then((id) => setAdding(id === null ? "no_picture" : "idle")));
    setAdding((now) => (now === "making" ? "idle" : now));
  };
  return [adding, (file) => void add(file)];
}

function Ways({ of }: { of: PhotoStripProps }) {
  const [adding, add] = useAdding(of);
  if (adding === "making") return <p class="notice" role="status" data-testid="photo-making">{t("photos.making")}</p>;
  return (
    <>
      {adding === "no_picture" && <p class="caution" role="alert" data-testid="no-picture">{t("photos.no_picture")}</p>}
      <div class="row even">
        <FileButton label={t("photos.take")} testid="take-photo" accept="image/*" camera onFile={add} />
        <FileButton label={t("photos.choose")} testid="choose-photo" accept="image/*" onFile={add} />
      </div>
    </>
  );
}

function photosIn({ room, reading, entry }: PhotoStripProps): readonly Row<"photo">[] {
  if (entry !== undefined) return photosOfEntry(entry);
  return reading === undefined ? photosOf(room).value : photosOfReading(room, reading);
}

export function PhotoStrip(props: PhotoStripProps) {
  const [opened, setOpened] = useState<string | null>(null);
  const photos = photosIn(props);
  const photo = photos.find(({ id }) => id === opened);
  return (
    <section class="stack tight" data-testid="photos">
      <h3>{t("photos.title")}</h3>
      {photos.length > 0 && (
        <div class="photo-strip">
          {photos.map((one) => <Thumb key={one.id} photo={one} onOpen={() => setOpened(one.id)} />)}
        </div>
      )}
      {mayWrite.value && <Ways of={props} />}
      {photo && <PhotoSheet photo={photo} onClose={() => setOpened(null)} />}
    </section>
  );
}
