/** All temperatures of the room: typed, taken in from loggers, and foretold for the whole job. */
import { useState } from "preact/hooks";
import { climateOf, deleteRecord, forecastOf, getDraft, mayWrite, temperatureLogsOf, type Row } from "../../state";
import { clockText, dayText, numberText, speedText, temperatureText } from "../../units";
import { reader, t } from "../../words";
import { Dialog } from "../common/Dialog";
import { FetchForecast } from "../common/FetchForecast";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import type { Kind } from "../../wire";
import { AddClimate, ClimateLines } from "./Climate";
import { AssumedTemperature } from "./Degrees";
import { dayOf, daysTold } from "./forecast";
import { ForecastSheet } from "./ForecastSheet";
import { LogSheet } from "./LogSheet";

interface LineProps {
  readonly kind: Kind;
  readonly id: string;
  readonly what: string;
  readonly more: string;
}

function Line({ kind, id, what, more }: LineProps) {
  return (
    <li class="line tall" data-testid={`${kind}-line`}>
      <span><strong>{what}</strong><br /><span class="quiet small">{more}</span></span>
      <Link to={pathOfHistory(kind, id)} class="button" label={t("history.of", { what })} testid={`${kind}-history`}>{t("history.open")}</Link>
      {mayWrite.value && <button type="button" class="button" aria-label={t("remove_named", { what })} data-testid={`remove-${kind}`} onClick={() => void saved(deleteRecord(kind, id))}>{t("remove")}</button>}
    </li>
  );
}

function LogLine({ row: { id, fields } }: { row: Row<"temperature_log"> }) {
  const { name, start = "", seconds = [], celsius = [], where } = fields;
  const rows = seconds?.length ?? 0;
  const values = celsius ?? [];
  const to = new Date(Date.parse(start ?? "") + (seconds?.at(-1) ?? 0) * 1000);
  const lowest = values.reduce((low, one) => Math.min(low, one), Infinity);
  const highest = values.reduce((high, one) => Math.max(high, one), -Infinity);
  const what = t("log.line", { name: name ?? t("log.unnamed"), rows });
  const lies = t(where === "air" ? "value.log_air" : "value.log_bed");
  return <Line kind="temperature_log" id={id} what={what} more={`${lies} \u00b7 ${t("log.line_more", { from: start, to: Number.isNaN(to.getTime()) ? "" : to.toISOString(), lowest, highest })}`} />;
}

function Logs({ room }: { room: string }) {
  const [open, setOpen] = useState(false);
  const rows = temperatureLogsOf(room).value;
  const isKept = getDraft(`log:${room}`) !== undefined;
  return (
    <>
      {rows.length > 0 && <ul class="lines">{rows.map((row) => <LogLine key={row.id} row={row} />)}</ul>}
      {mayWrite.value && <button type="button" class="button wide" data-testid="add-log" onClick={() => setOpen(true)}>{t("log.take")}{isKept && <span class="changed">{"\u2026"}</span>}</button>}
      {open && <LogSheet room={room} onClose={() => setOpen(false)} />}
    </>
  );
}

function dayTitle({ fields }: Row<"forecast_day">): string {
  const at = Date.parse(fields.high_at ?? "");
  return Number.isNaN(at) ? "" : dayText(at, reader.value);
}

function sourceText({ fields: { source } }: Row<"forecast_day">): string {
  return source ? t("forecast.from", { source }) : t("forecast.typed");
}

function ForecastLine({ row, onOpen }: { row: Row<"forecast_day">; onOpen: () => void }) {
  const { low, high } = row.fields;
  return (
    <li>
      <button type="button" class="place-line" data-testid="forecast-line" onClick={onOpen}>
        <strong>{dayTitle(row)}</strong><strong>{t("forecast.line", { low, high })}</strong><span class="quiet small">{sourceText(row)}</span>
      </button>
    </li>
  );
}

/** One day as it was told: when it is coldest and warmest, its air, where it came from. */
function DaySheet({ row, onClose }: { row: Row<"forecast_day">; onClose: () => void }) {
  const { id, fields: { low, high, low_at: lowAt, high_at: highAt, humidity, wind } } = row;
  const remove = () => void saved(deleteRecord("forecast_day", id)).then((isSaved) => { if (isSaved) onClose(); });
  return (
    <Dialog title={dayTitle(row)} testid="forecast-day" onClose={onClose}>
      <dl class="inputs">
        <div><dt>{t("forecast.low_at")} {clockText(lowAt ?? "", reader.value)}</dt><dd>{temperatureText(low ?? 0, reader.value)}</dd></div>
        <div><dt>{t("forecast.high_at")} {clockText(highAt ?? "", reader.value)}</dt><dd>{temperatureText(high ?? 0, reader.value)}</dd></div>
        {humidity != null && <div><dt>{t("climate.humidity")}</dt><dd>{numberText(humidity, 0, reader.value.language)} %</dd></div>}
        {wind != null && <div><dt>{t("climate.wind")}</dt><dd>{speedText(wind, reader.value)}</dd></div>}
      </dl>
      <p>{sourceText(row)}</p>
      <div class="row even">
        <Link to={pathOfHistory("forecast_day", id)} class="button" testid="forecast_day-history">{t("history.open")}</Link>
        {mayWrite.value && <button type="button" class="button danger" data-testid="remove-forecast_day" onClick={remove}>{t("remove")}</button>}
      </div>
    </Dialog>
  );
}

/** Days gone by are behind one tap: they still count, where nothing was measured. */
function Forecast({ job }: { job: string }) {
  const [open, setOpen] = useState(false);
  const [isAll, setAll] = useState(false);
  const [opened, setOpened] = useState<string | null>(null);
  const days = daysTold(forecastOf(job).value);
  const today = dayOf(Date.now());
  const ahead = days.filter(({ fields }) => dayOf(Date.parse(fields.high_at ?? "")) >= today);
  const shown = isAll ? days : ahead;
  const day = days.find(({ id }) => id === opened);
  return (
    <section class="stack tight" data-testid="job-forecast">
      <h4>{t("forecast.title")}</h4>
      {shown.length > 0 && <ul class="places">{shown.map((row) => <ForecastLine key={row.id} row={row} onOpen={() => setOpened(row.id)} />)}</ul>}
      {!isAll && days.length > ahead.length && <button type="button" class="button plain" data-testid="forecast-past" onClick={() => setAll(true)}>{t("forecast.past")}</button>}
      {mayWrite.value && <button type="button" class="button wide" data-testid="add-forecast" onClick={() => setOpen(true)}>{t("forecast.type")}</button>}
      <FetchForecast job={job} />
      {open && <ForecastSheet job={job} onClose={() => setOpen(false)} />}
      {day && <DaySheet row={day} onClose={() => setOpened(null)} />}
    </section>
  );
}

export function Temperatures({ room }: { room: RoomView }) {
  const rows = climateOf(room.id).value;
  const job = room.fields.job_id ?? "";
  return (
    <section class="stack tight">
      <h3>{t("climate.title")}</h3>
      <p class="quiet small">{t("climate.about")}</p>
      <ClimateLines rows={rows} />
      <AddClimate room={room} />
      <Logs room={room.id} />
      <Forecast job={job} />
      <AssumedTemperature room={room} />
    </section>
  );
}
