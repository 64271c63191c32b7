/** Drying for a covering that minds moisture: a band of days, never a date; a test decides. */
import { editRoom, mayWrite } from "../../state";
import type { WaitingAnswer } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Figure } from "../common/Figure";
import { saved, sayOnlyLooks } from "../common/saving";
import type { RoomView } from "../common/useRoom";

const DAY_MS = 86_400_000;
type Drying = NonNullable<WaitingAnswer["drying"]>;

function dayNumber({ placed_at: placedAt, now }: WaitingAnswer): number | null {
  return placedAt === null ? null : Math.floor((Date.parse(now) - Date.parse(placedAt)) / DAY_MS) + 1;
}

function Band({ answer, drying }: { answer: WaitingAnswer; drying: Drying }) {
  const day = dayNumber(answer);
  return (
    <div class="drying-band" data-testid="drying-band">
      <Figure label={t("drying.of", { thickness: drying.thickness })} value={t("drying.band", { early: Math.round(drying.early_days), late: Math.round(drying.late_days) })} plan={answer} path="drying" />
      {day !== null && <p>{t("drying.day", { day })}</p>}
      <p class="caution">{t("drying.more")}</p>
    </div>
  );
}

export function Drying({ room, answer }: { room: RoomView; answer: WaitingAnswer }) {
  const isSensitive = room.fields["curing.moisture_sensitive"] === true;
  const choose = (value: "yes" | "no") => {
    if (!mayWrite.value) sayOnlyLooks();
    else void saved(editRoom(room.id, { "curing.moisture_sensitive": value === "yes" ? true : null }));
  };
  return (
    <section class="stack tight" data-testid="drying">
      <h3>{t("drying.title")}</h3>
      <Choice label={t("drying.sensitive")} name="moisture" value={isSensitive ? "yes" : "no"} onChoose={choose} options={[{ value: "no", label: t("drying.no") }, { value: "yes", label: t("drying.yes") }]} />
      {!isSensitive && <p class="quiet small">{t("drying.off")}</p>}
      {isSensitive && (answer.drying ? <Band answer={answer} drying={answer.drying} /> : <p class="notice">{t("drying.no_bed")}</p>)}
    </section>
  );
}
