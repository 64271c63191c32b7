/** The record's tables for spreadsheets: all of them in one zip, or each alone, in the person's units. */
import { getDraft, setDraft } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { saveFile } from "../common/saveFile";
import { usualHow, withHow } from "../tables/TableOut";
import type { Content } from "./content";
import type { CsvHow } from "./csv";
import { tablesOf, tableText, zippedTables } from "./tables";

const MARKED = "csv-mark";
const HOW = "csv-how";

/** As it was chosen last on this phone, else as this phone writes numbers. */
function howChosen(): CsvHow {
  const { separator, decimal } = usualHow(navigator.language, false);
  const usual = { separator: separator === "blanks" ? "tab" : separator, decimal } as const;
  const kept = getDraft(HOW);
  const chosen = kept === undefined ? usual : (JSON.parse(kept) as Pick<CsvHow, "separator" | "decimal">);
  return { ...chosen, hasMark: getDraft(MARKED) !== "no" };
}

function chooseHow(changed: Partial<Pick<CsvHow, "separator" | "decimal">>): void {
  const { separator, decimal } = withHow({ unit: "m", ...howChosen() }, changed);
  void setDraft(HOW, JSON.stringify({ separator, decimal }));
}

/** Letters and digits of the room's name, for a file. */
export function fileName(content: Content, ending: string): string {
  const name = (content.room.name ?? "").replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "").toLowerCase();
  return `${name || "room"}${ending}`;
}

function Ways({ how }: { how: CsvHow }) {
  return (
    <>
      <Choice label={t("table.separator")} name="csv-separator" value={how.separator} onChoose={(separator) => chooseHow({ separator })} options={(["comma", "semicolon", "tab"] as const).map((value) => ({ value, label: t(`separator.${value}`) }))} />
      <Choice label={t("table.decimal")} name="csv-decimal" value={how.decimal} onChoose={(decimal) => chooseHow({ decimal })} options={(["point", "comma"] as const).map((value) => ({ value, label: t(`decimal.${value}`) }))} />
      <Choice label={t("record.csv_mark")} name="csv-mark" value={how.hasMark ? "yes" : "no"} onChoose={(value) => void setDraft(MARKED, value)} options={(["yes", "no"] as const).map((value) => ({ value, label: t(value) }))} />
    </>
  );
}

export function TablesSheet({ content, onClose }: { content: Content; onClose: () => void }) {
  const how = howChosen();
  const tables = tablesOf(content);
  const saveAll = () => saveFile(fileName(content, "-tables.zip"), zippedTables(tables, how), "application/zip");
  return (
    <Dialog title={t("record.tables")} testid="tables-sheet" onClose={onClose}>
      <div class="stack">
        <p>{t("record.tables_more")}</p>
        <Ways how={how} />
        <button type="button" class="button main wide" data-testid="save-tables" onClick={saveAll}>{t("record.save_tables")}</button>
        <h3>{t("record.one_table")}</h3>
        <ul class="lines">
          {tables.map((table) => (
            <li key={table.id} class="line">
              <span>{t("record.table_rows", { title: table.title, rows: table.rows.length })}</span>
              <button type="button" class="button" data-testid={`save-table-${table.id}`} aria-label={t("record.save_named", { title: table.title })} onClick={() => saveFile(fileName(content, `-${table.id}.csv`), tableText(table, how), "text/csv")}>{t("table_out.save")}</button>
            </li>
          ))}
        </ul>
      </div>
    </Dialog>
  );
}
