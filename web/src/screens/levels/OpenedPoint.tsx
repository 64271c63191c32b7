/** What opens where a point of the drawing is tapped: a reading, a place worth reading, a corner that is estimated. */
import { mayWrite, setDraft } from "../../state";
import { errorText, heightText } from "../../units";
import type { NextReading, Plan } from "../../wire";
import type { Place } from "../../drawing/camera";
import { reader, t, told } from "../../words";
import { Dialog } from "../common/Dialog";
import { placeText } from "../common/roomFigure";
import { go, pathOfRoom } from "../common/route";
import type { RoomView } from "../common/useRoom";
import { ReadingDialog } from "./ReadingDialog";
import { draftFromTarget, targetDraft } from "./round";

interface OpenedProps {
  readonly room: RoomView;
  readonly onClose: () => void;
}

/** To the levels with the rod at a place; what was opened closes. */
function ReadHere({ room, at, onClose }: OpenedProps & { readonly at: Place }) {
  if (!mayWrite.value) return null;
  const lead = () => {
    void setDraft(targetDraft(room.id, "subfloor"), draftFromTarget({ place: at }));
    onClose();
    go(pathOfRoom(room.id, "levels"));
  };
  return <button type="button" class="button main wide" data-testid="read-here" onClick={lead}>{t("next.read")}</button>;
}

function NextDialog({ room, next, number, onClose }: OpenedProps & { readonly next: NextReading; readonly number: number }) {
  const { at, sigma, gain, why } = next;
  return (
    <Dialog title={t("next.title", { number })} testid="next-reading" onClose={onClose}>
      <p data-testid="next-why">{told("next", why, {}, "")}</p>
      <dl class="inputs">
        <div><dt>{t("reading.place")}</dt><dd>{placeText(at)}</dd></div>
        {sigma !== null && <div><dt>{t("next.error")}</dt><dd>{errorText(sigma, reader.value)}</dd></div>}
        {gain !== null && <div><dt>{t("next.gain")}</dt><dd data-testid="next-gain">{t("share", { share: Math.round(gain * 100) / 100 })}</dd></div>}
      </dl>
      <ReadHere room={room} at={at} onClose={onClose} />
    </Dialog>
  );
}

function EstimatedDialog({ room, plan, index, onClose }: OpenedProps & { readonly plan: Plan; readonly index: number }) {
  const [x, y, z] = plan.surface.points[index] ?? [0, 0, 0];
  return (
    <Dialog title={t("estimated.title")} testid="estimated" onClose={onClose}>
      <p>{t("estimated.more")}</p>
      <dl class="inputs">
        <div><dt>{t("reading.place")}</dt><dd>{placeText([x, y])}</dd></div>
        <div><dt>{t("reading.height")}</dt><dd>{heightText(z, reader.value)}</dd></div>
      </dl>
      <ReadHere room={room} at={[x, y]} onClose={onClose} />
    </Dialog>
  );
}

/** Nothing where the point is gone, or has nothing to say. */
export function OpenedPoint({ room, id, onClose }: OpenedProps & { readonly id: string | null }) {
  const { plan } = room;
  const [kind, number] = (id ?? "").split("-");
  const next = kind === "wanting" ? plan?.levels.next_readings[Number(number)] : undefined;
  const reading = room.readings.find((row) => row.id === id);
  if (reading) return <ReadingDialog reading={reading} plan={plan} onClose={onClose} />;
  if (next) return <NextDialog room={room} next={next} number={Number(number) + 1} onClose={onClose} />;
  return plan && kind === "estimated" ? <EstimatedDialog room={room} plan={plan} index={Number(number)} onClose={onClose} /> : null;
}

/** The places worth reading as buttons: the way to them for whoever cannot tap the drawing. */
export function NextList({ plan, onOpen }: { plan: Plan; onOpen: (id: string) => void }) {
  const places = plan.levels.next_readings.slice(0, 3);
  if (places.length === 0) return null;
  return (
    <section class="stack tight" data-testid="next-list">
      <h3>{t("next.list")}</h3>
      {places.map(({ at: [x, y] }, index) => (
        <button key={index} type="button" class="button wide" data-testid="next-open" onClick={() => onOpen(`wanting-${index}`)}>{t("next.open", { number: index + 1, x, y })}</button>
      ))}
    </section>
  );
}
