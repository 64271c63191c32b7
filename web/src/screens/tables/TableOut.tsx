/** Readings as a table for whoever wants them: units and separator to choose, then saved or shared. */
import { useEffect, useState } from "preact/hooks";
import { askEngine, documentFromRoom, preferences, type Asked } from "../../state";
import type { TableOutAnswer, TableOutQuestion } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { NoAnswer } from "../common/Notes";
import { saveFile, shareFile } from "../common/saveFile";
import type { RoomView } from "../common/useRoom";
import { DECIMALS, UNITS } from "./HowRead";

type How = Required<{ readonly [K in "unit" | "separator" | "decimal"]: NonNullable<TableOutQuestion[K]> }>;

const SEPARATORS = ["comma", "semicolon", "tab"] as const;
const MEDIA_TYPE = "text/csv";

/** As this phone writes numbers: where a comma begins the decimals, a semicolon stands between the columns. */
export function usualHow(locale: string, isImperial: boolean): How {
  const isComma = new Intl.NumberFormat(locale).format(0.5).includes(",");
  return { unit: isImperial ? "ft" : "m", separator: isComma ? "semicolon" : "comma", decimal: isComma ? "comma" : "point" };
}

/** A comma cannot begin the decimals and part the columns at once. */
export function withHow(how: How, changed: Partial<How>): How {
  const next = { ...how, ...changed };
  if (next.separator !== "comma" || next.decimal !== "comma") return next;
  return changed.separator === undefined ? { ...next, separator: "semicolon" } : { ...next, decimal: "point" };
}

function useTable(room: RoomView, how: How): Asked<TableOutAnswer> | null {
  const [asked, setAsked] = useState<Asked<TableOutAnswer> | null>(null);
  useEffect(() => {
    const document = documentFromRoom(room.id);
    if (!document) return;
    void askEngine<TableOutAnswer>("table_out", `table_out:${room.id}`, { document, ...how }).then((answer) => { if (answer.outcome !== "replaced") setAsked(answer); });
  }, [room.fields, room.readings, how]);
  return asked;
}

function Written({ room, answer }: { room: RoomView; answer: TableOutAnswer }) {
  const name = `${(room.fields.name ?? "").replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase() || "readings"}.csv`;
  const file = { name, text: answer.text, type: MEDIA_TYPE };
  return (
    <>
      <p class="notice" data-testid="table-written">{t("table_out.rows", { rows: answer.rows })}{answer.left_out > 0 && ` ${t("table_out.left_out", { left_out: answer.left_out })}`}</p>
      <pre class="table-sample" translate={false} data-testid="table-sample">{answer.text.split("\r\n").slice(0, 5).join("\n")}</pre>
      <div class="row even">
        <button type="button" class="button main" data-testid="save-table" disabled={answer.rows === 0} onClick={() => saveFile(file.name, file.text, MEDIA_TYPE)}>{t("table_out.save")}</button>
        {shareFile.isOffered(file) && <button type="button" class="button" data-testid="share-table" disabled={answer.rows === 0} onClick={() => void shareFile.share(file)}>{t("table_out.share")}</button>}
      </div>
    </>
  );
}

export function TableOut({ room }: { room: RoomView }) {
  const [how, setHow] = useState(() => usualHow(navigator.language, preferences.value.units === "imperial"));
  const asked = useTable(room, how);
  const change = (changed: Partial<How>) => setHow((now) => withHow(now, changed));
  return (
    <div class="stack">
      <Choice label={t("table.unit")} name="out-unit" value={how.unit} onChoose={(unit) => change({ unit })} options={UNITS.map((value) => ({ value, label: t(`unit.${value}`) }))} />
      <Choice label={t("table.separator")} name="out-separator" value={how.separator === "blanks" ? "tab" : how.separator} onChoose={(separator) => change({ separator })} options={SEPARATORS.map((value) => ({ value, label: t(`separator.${value}`) }))} />
      <Choice label={t("table.decimal")} name="out-decimal" value={how.decimal} onChoose={(decimal) => change({ decimal })} options={DECIMALS.map((value) => ({ value, label: t(`decimal.${value}`) }))} />
      {asked?.outcome === "answered" && <Written room={room} answer={asked.answer} />}
      {asked && asked.outcome !== "answered" && <NoAnswer asked={asked} />}
    </div>
  );
}
