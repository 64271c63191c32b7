/** A forecast typed for the whole job: the next days in one table, a cell after the other with the keys. */
import { useEffect, useRef, useState } from "preact/hooks";
import { addForecast, clearDraft } from "../../state";
import { dayText, numberText } from "../../units";
import { reader, t, type WordKey } from "../../words";
import { Dialog } from "../common/Dialog";
import { Entry } from "../common/Entry";
import { formOf, type Form } from "../common/form";
import { saved } from "../common/saving";
import { AT_FIRST, cellAfter, COLUMNS, daysFrom, faultOf, recordsFrom, type Column, type DayTyped, type ForecastTyped } from "./forecast";

const NOON = "T12:00:00";

function dayName(day: string): string {
  return dayText(Date.parse(`${day}${NOON}`), reader.value);
}

function columnName(column: Column): string {
  const isImperial = reader.value.units === "imperial";
  if (column === "wind") return t(isImperial ? "forecast.wind_miles" : "forecast.wind_km");
  return t(`forecast.${column}`, { unit: isImperial ? "°F" : "°C" });
}

interface TableProps {
  readonly days: readonly string[];
  readonly form: Form<ForecastTyped>;
  readonly cell: readonly [string, Column] | null;
}

function Cell({ day, column, form, isHere }: { day: string; column: Column; form: Form<ForecastTyped>; isHere: boolean }) {
  const box = useRef<HTMLButtonElement>(null);
  useEffect(() => { if (isHere) box.current?.scrollIntoView({ block: "nearest" }); }, [isHere]);
  const value = form.values.days[day]?.[column];
  return (
    <button ref={box} type="button" class="button forecast-cell" aria-pressed={isHere} aria-label={t("forecast.cell", { day: dayName(day), what: columnName(column) })} data-testid={`forecast-${column}-${day}`} onClick={() => form.set({ cell: [day, column] })}>
      {value === undefined ? "\u00b7" : numberText(value, 1, reader.value.language)}
    </button>
  );
}

function Table({ days, form, cell }: TableProps) {
  const columns = form.values.isMore ? COLUMNS : COLUMNS.slice(0, 2);
  return (
    <table class="forecast-table">
      <thead><tr><th scope="col"><span class="hidden-words">{t("forecast.day")}</span></th>{columns.map((column) => <th key={column} scope="col">{columnName(column)}</th>)}</tr></thead>
      <tbody>
        {days.map((day) => (
          <tr key={day}>
            <th scope="row">{dayName(day)}</th>
            {columns.map((column) => <td key={column}><Cell day={day} column={column} form={form} isHere={cell?.[0] === day && cell[1] === column} /></td>)}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Times({ form }: { form: Form<ForecastTyped> }) {
  const field = (name: "lowAt" | "highAt", key: WordKey) => (
    <div class="field">
      <label for={`forecast-${name}`}>{t(key)}</label>
      <input id={`forecast-${name}`} type="time" data-testid={`forecast-${name}`} value={form.values[name]} onInput={(event) => { if (event.currentTarget.value !== "") form.set({ [name]: event.currentTarget.value }); }} />
    </div>
  );
  return <div class="row even">{field("lowAt", "forecast.low_at")}{field("highAt", "forecast.high_at")}</div>;
}

/** A day that is being typed is not half before the keys have gone on. */
function faultsIn({ days, cell, lowAt, highAt }: ForecastTyped): readonly string[] {
  const faults = Object.entries(days).sort().flatMap(([day, typed]) => {
    const fault = faultOf(typed, reader.value);
    return fault === null || (fault === "half" && cell?.[0] === day) ? [] : [t(`forecast.${fault}`, { day: dayName(day) })];
  });
  return lowAt === highAt ? [...faults, t("forecast.same_time")] : faults;
}

/** The keys for one cell; a figure goes in, and the next cell is there. */
function Keys({ days, form, cell, draft, fault }: TableProps & { readonly cell: readonly [string, Column]; readonly draft: string; readonly fault: string | undefined }) {
  const [day, column] = cell;
  const own = `${draft}:${day}:${column}`;
  const done = (value: number) => {
    const typed: DayTyped = { ...form.values.days[day], [column]: value };
    form.set({ days: { ...form.values.days, [day]: typed }, cell: cellAfter(days, cell, form.values.isMore) });
    void clearDraft(own);
  };
  return <Entry key={own} what={t("forecast.cell", { day: dayName(day), what: columnName(column) })} draft={own} measure="number" signed={column === "low" || column === "high"} nextLabel={t("keys.next")} onDone={done} {...(fault === undefined ? {} : { note: fault })} />;
}

/** Days that were typed and have gone by meanwhile are let go. */
function ofTheseDays(values: ForecastTyped, days: readonly string[]): ForecastTyped {
  const kept = Object.fromEntries(Object.entries(values.days).filter(([day]) => days.includes(day)));
  return { ...values, days: kept, cell: values.cell && days.includes(values.cell[0]) ? values.cell : null };
}

export function ForecastSheet({ job, onClose }: { job: string; onClose: () => void }) {
  const [days] = useState(() => daysFrom(Date.now()));
  const form = formOf<ForecastTyped>(`forecast:${job}`, { ...AT_FIRST, cell: [days[0] ?? "", "low"] });
  const typed = ofTheseDays(form.values, days);
  const faults = faultsIn(typed);
  const records = recordsFrom(typed, reader.value);
  const here: Form<ForecastTyped> = { ...form, values: typed };
  const keep = async () => { if (await saved(addForecast(job, records, { draft: form.draft }))) onClose(); };
  return (
    <Dialog title={t("forecast.title")} testid="forecast" onClose={onClose}>
      <p class="quiet small">{t("forecast.about")}</p>
      <Table days={days} form={here} cell={typed.cell} />
      {(typed.cell ? faults.slice(1) : faults).map((fault) => <p key={fault} class="notice" role="status" data-testid="forecast-fault">{fault}</p>)}
      {typed.cell && <div class="forecast-keys"><Keys days={days} form={here} cell={typed.cell} draft={form.draft} fault={faults[0]} /></div>}
      <button type="button" class="button main wide" data-testid="keep-forecast" disabled={records.length === 0 || faults.length > 0} onClick={() => void keep()}>{t("forecast.keep", { days: records.length })}</button>
      <Times form={here} />
      <button type="button" class="button wide" aria-pressed={typed.isMore} data-testid="forecast-more" onClick={() => here.set({ isMore: !typed.isMore })}>{t("forecast.more")}</button>
      {typed.isMore && <p class="quiet small">{t("forecast.more_about")}</p>}
    </Dialog>
  );
}
