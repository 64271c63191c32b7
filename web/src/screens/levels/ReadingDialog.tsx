/** One reading opened: what was read, where, when; correct it or delete it. The first value stays in the history. */
import { useState } from "preact/hooks";
import { correctReading, deleteRecord, mayWrite, type Row } from "../../state";
import { lengthText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { Entry } from "../common/Entry";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { PhotoStrip } from "../photos/PhotoStrip";
import { ReadingFacts, Suspicion } from "./ReadingFacts";

interface ReadingDialogProps {
  readonly reading: Row<"reading">;
  readonly plan: Plan | null;
  readonly onClose: () => void;
}

export function ReadingDialog({ reading, plan, onClose }: ReadingDialogProps) {
  const [correcting, setCorrecting] = useState(false);
  const draft = `correct:${reading.id}`;
  const corrected = (down: number, typed: string) => {
    void saved(correctReading(reading.id, { down, typed }, { draft })).then((isSaved) => { if (isSaved) onClose(); });
  };
  const remove = () => void saved(deleteRecord("reading", reading.id)).then((isSaved) => { if (isSaved) onClose(); });
  const shown = lengthText(reading.fields.down ?? 0, reader.value);
  return (
    <Dialog title={t("reading.title", { down: reading.fields.down })} testid="reading" onClose={onClose}>
      <Suspicion reading={reading} plan={plan} />
      <ReadingFacts reading={reading} plan={plan} />
      {!correcting && <PhotoStrip room={reading.fields.room_id ?? ""} reading={reading.id} />}
      {correcting ? <Entry what={t("field.now", { value: shown })} draft={draft} measure="length" nextLabel={t("keys.set")} onDone={corrected} /> : mayWrite.value && (
        <div class="row even">
          <button type="button" class="button main" data-testid="correct-reading" onClick={() => setCorrecting(true)}>{t("reading.correct")}</button>
          <button type="button" class="button danger" data-testid="delete-reading" onClick={remove}>{t("reading.delete")}</button>
        </div>
      )}
      {!correcting && <Link to={pathOfHistory("reading", reading.id)} class="button wide" testid="reading-history">{t("history.open")}</Link>}
    </Dialog>
  );
}
