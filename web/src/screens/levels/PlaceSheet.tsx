/** A place that was read: every reading of it, and the way to read it again from where one stands now. */
import { FIRST_SETUP, setDraft } from "../../state";
import type { Place } from "../../drawing/camera";
import { lengthText } from "../../units";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { placeText } from "../common/roomFigure";
import { layFrom, layTo } from "./laying";
import { setupName } from "./names";
import { draftOfReadPlace, isSamePlace, targetDraft } from "./round";
import type { Work } from "./work";

interface PlaceSheetProps {
  readonly work: Work;
  readonly at: Place;
  readonly onReading: (id: string) => void;
  readonly onClose: () => void;
}

function Again({ work, at, onClose }: Omit<PlaceSheetProps, "onReading">) {
  const { room, stage, standing } = work;
  if ("laying" in standing) {
    return (
      <div class="row even">
        <button type="button" class="button main" data-testid="lay-from" onClick={() => { layFrom(work, at); onClose(); }}>{t("laying.from_here")}</button>
        <button type="button" class="button" data-testid="lay-to" onClick={() => { layTo(work, at); onClose(); }}>{t("laying.to_here")}</button>
      </div>
    );
  }
  const isOwn = work.readings.some(({ fields }) => fields.at && isSamePlace(fields.at, at) && (fields.setup ?? FIRST_SETUP) === standing.setup);
  if (isOwn) return <p class="quiet">{t("place.read_from_here", { setup: setupName(room, standing.setup) })}</p>;
  const again = () => { void setDraft(targetDraft(room.id, stage), draftOfReadPlace(at)); onClose(); };
  return (
    <>
      <button type="button" class="button main wide" data-testid="read-from-here" onClick={again}>{t("place.again")}</button>
      <p class="quiet small">{t("place.again_more")}</p>
    </>
  );
}

export function PlaceSheet(props: PlaceSheetProps) {
  const { work, at, onReading, onClose } = props;
  const { room } = work;
  const readings = work.readings.filter(({ fields }) => fields.at && isSamePlace(fields.at, at));
  return (
    <Dialog title={placeText(at)} testid="place" onClose={onClose}>
      <Again {...props} />
      <div class="lines">
        {readings.map(({ id, fields }) => (
          <button key={id} type="button" class="value-button" data-testid="place-reading" onClick={() => onReading(id)}>
            <span>{setupName(room, fields.setup ?? FIRST_SETUP)}</span>
            <span class="given">{lengthText(fields.down ?? 0, reader.value)}</span>
          </button>
        ))}
      </div>
    </Dialog>
  );
}
