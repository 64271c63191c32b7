/** When the bed lay in place: from the last section on, the bed's age counts. */
import { addPlacement, editPlacement, mayWrite, placementsIn, placementsOf, placeOf, type Row } from "../../state";
import { clockText, momentText } from "../../units";
import { reader, t } from "../../words";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";

const HOUR_MS = 3_600_000;

function lastPlaced(rows: readonly Row<"placement">[]): Row<"placement"> | null {
  const placed = rows.filter(({ fields }) => fields.placed_at);
  return [...placed].sort((a, b) => Date.parse(b.fields.placed_at ?? "") - Date.parse(a.fields.placed_at ?? ""))[0] ?? null;
}

export function Placed({ room }: { room: RoomView }) {
  const rows = placementsOf(room.id).value;
  const last = lastPlaced(rows);
  const sections = room.plan?.sections ?? [];
  const section = [...sections].sort((a, b) => b.order - a.order)[0];
  const placedAt = (moment: Date) => {
    const placement = last ?? (section && placementsIn(room.id, section).at(-1));
    const fields = { placed_at: moment.toISOString() };
    void saved(placement ? editPlacement(placement.id, fields) : addPlacement(room.id, { ...(section ? placeOf(section) : { section: "" }), ...fields }));
  };
  return (
    <section class="stack tight">
      {last
        ? <p class="notice" data-testid="placed-at">{t("waiting.placed", { at: momentText(last.fields.placed_at ?? "", reader.value) })}</p>
        : mayWrite.value && <button type="button" class="button main wide" data-testid="placed-now" onClick={() => placedAt(new Date())}>{t("waiting.placed_now")}</button>}
      <ValueField
        name={`${room.id}:placed-ago`} label={t("waiting.placed_ago")} shown={last ? clockText(last.fields.placed_at ?? "", reader.value) : t("none_yet")}
        measure="number" note={t("waiting.placed_ago_more")} onValue={(hours) => placedAt(new Date(Date.now() - hours * HOUR_MS))}
      />
      {last && <Link to={pathOfHistory("placement", last.id)} class="button wide" testid="placement-history">{t("history.open")}</Link>}
    </section>
  );
}
