/** How the table is read: found by the engine, and every part of it to be chosen otherwise. */
import type { TableInAnswer } from "../../wire";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import type { Form } from "../common/form";
import { columnsOf, meaningOf, MEANINGS, sampleOf, widthOf, withHeights, withMeaning, type Meaning } from "./columns";
import type { Reading } from "./useTableIn";

interface HowProps {
  readonly answer: TableInAnswer;
  readonly form: Form<Reading>;
}

const SEPARATORS = ["comma", "semicolon", "tab", "blanks"] as const;
export const DECIMALS = ["point", "comma"] as const;
export const UNITS = ["mm", "cm", "m", "in", "ft", "us_ft"] as const;
const MEANT = [...MEANINGS, "none"] as const;

/** The columns and their names are found anew once the lines are cut otherwise. */
function Lines({ answer, form }: HowProps) {
  return (
    <>
      <Choice
        label={t("table.separator")} name="separator" value={answer.separator} onChoose={(separator) => form.set({ separator, columns: null })}
        options={SEPARATORS.map((value) => ({ value, label: t(`separator.${value}`) }))}
      />
      <Choice
        label={t("table.decimal")} name="decimal" value={answer.decimal} onChoose={(decimal) => form.set({ decimal })}
        options={DECIMALS.map((value) => ({ value, label: t(`decimal.${value}`) }))}
      />
      <Choice
        label={t("table.unit")} name="unit" value={answer.unit} onChoose={(unit) => form.set({ unit })}
        options={UNITS.map((value) => ({ value, label: t(`unit.${value}`) }))}
      />
    </>
  );
}

function Column({ answer, form, column }: HowProps & { readonly column: number }) {
  const columns = columnsOf(answer);
  const choose = (meaning: string) => form.set({ columns: withMeaning(columns, column, meaning as Meaning | "none") });
  const name = answer.names[column];
  return (
    <div class="field">
      <label for={`column-${column}`}>{name ? t("table.column_named", { number: column + 1, name }) : t("table.column", { number: column + 1 })} <span class="sample" translate={false}>{sampleOf(answer, column)}</span></label>
      <select id={`column-${column}`} data-testid={`column-${column}`} value={meaningOf(columns, column)} onChange={(event) => choose(event.currentTarget.value)}>
        {MEANT.map((meaning) => <option key={meaning} value={meaning}>{t(`meaning.${meaning}`)}</option>)}
      </select>
    </div>
  );
}

export function HowRead(props: HowProps) {
  const { answer, form } = props;
  const heights = (value: "elevation" | "down") => form.set({ heights: value, columns: withHeights(columnsOf(answer), value) });
  return (
    <section class="stack tight" data-testid="how-read">
      <h3>{t("table.how_read")}</h3>
      <Choice
        label={t("table.header")} name="header" value={answer.header ? "yes" : "no"} onChoose={(value) => form.set({ header: value === "yes", columns: null })}
        options={[{ value: "yes", label: t("table.header_yes") }, { value: "no", label: t("table.header_no") }]}
      />
      <Choice
        label={t("table.heights")} name="heights" value={answer.heights} onChoose={heights}
        options={[{ value: "elevation", label: t("meaning.elevation") }, { value: "down", label: t("meaning.down") }]}
      />
      <Lines {...props} />
      <div class="columns-list">
        {Array.from({ length: widthOf(answer) }, (_, column) => <Column key={column} {...props} column={column} />)}
      </div>
    </section>
  );
}
