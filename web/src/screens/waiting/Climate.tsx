/** How warm it is, typed: as measured now, or as foretold for some hours ahead. */
import { useState } from "preact/hooks";
import { addClimate, deleteRecord, mayWrite, type Row } from "../../state";
import { celsiusFrom, kmHFrom, momentText, numberText, speedText, temperatureText } from "../../units";
import { reader, t, type WordKey } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { formOf } from "../common/form";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { hoursFault, plainFault, RANGES, speedFault, temperatureFault } from "./ranges";

interface Weather {
  readonly when: "now" | "ahead";
  readonly hours: number | null;
  readonly bed: number | null;
  readonly air: number | null;
  readonly humidity: number | null;
  readonly wind: number | null;
}

const NOTHING: Weather = { when: "now", hours: null, bed: null, air: null, humidity: null, wind: null };
const HOUR_MS = 3_600_000;

function temperatureOrNone(celsius: number | null): string {
  return celsius === null ? t("none_yet") : temperatureText(celsius, reader.value);
}

function plainOrNone(value: number | null, unit: string): string {
  return value === null ? t("none_yet") : `${numberText(value, 0, reader.value.language)} ${unit}`;
}

function rowFrom(weather: Weather, now: number) {
  const { when, hours, ...measured } = weather;
  const known = Object.fromEntries(Object.entries(measured).filter(([, value]) => value !== null));
  const at = new Date(now + (when === "ahead" ? (hours ?? 0) * HOUR_MS : 0)).toISOString();
  return { at, forecast: when === "ahead", ...known };
}

function WeatherFields({ weather, set }: { weather: Weather; set: (changed: Partial<Weather>) => void }) {
  const { units } = reader.value;
  return (
    <>
      <ValueField name="climate-bed" label={t("climate.bed")} shown={temperatureOrNone(weather.bed)} measure="number" signed faultOf={temperatureFault(RANGES.bed)} onValue={(value) => set({ bed: celsiusFrom(value, units) })} />
      <ValueField name="climate-air" label={t("climate.air")} shown={temperatureOrNone(weather.air)} measure="number" signed faultOf={temperatureFault(RANGES.air)} onValue={(value) => set({ air: celsiusFrom(value, units) })} />
      <ValueField name="climate-humidity" label={t("climate.humidity")} shown={plainOrNone(weather.humidity, "%")} measure="number" faultOf={plainFault(RANGES.humidity, "%")} onValue={(humidity) => set({ humidity })} />
      <ValueField name="climate-wind" label={t("climate.wind")} shown={weather.wind === null ? t("none_yet") : speedText(weather.wind, reader.value)} measure="number" faultOf={speedFault(RANGES.wind)} onValue={(value) => set({ wind: kmHFrom(value, reader.value) })} />
    </>
  );
}

/** What is lacking before it can be kept; null where nothing is. */
function missingOf({ when, hours, bed, air }: Weather): WordKey | null {
  if (bed === null && air === null) return "climate.no_temperature";
  return when === "ahead" && hours === null ? "climate.no_hours" : null;
}

function WeatherDialog({ room, onClose }: { room: RoomView; onClose: () => void }) {
  const { values, set, draft } = formOf(`climate:${room.id}`, NOTHING);
  const missing = missingOf(values);
  const keep = async () => { if (await saved(addClimate(room.id, rowFrom(values, Date.now()), { draft }))) onClose(); };
  return (
    <Dialog title={t("climate.add")} testid="climate" onClose={onClose}>
      <div class="stack tight">
        <Choice label={t("climate.when")} name="when" value={values.when} onChoose={(when) => set({ when })} options={[{ value: "now", label: t("climate.now") }, { value: "ahead", label: t("climate.ahead") }]} />
        {values.when === "ahead" && <ValueField name="climate-hours" label={t("climate.hours")} shown={plainOrNone(values.hours, "h")} measure="number" faultOf={hoursFault(RANGES.ahead)} onValue={(hours) => set({ hours })} />}
        <WeatherFields weather={values} set={set} />
        {missing !== null && <p class="notice" role="status" data-testid="climate-missing">{t(missing)}</p>}
        <button type="button" class="button main wide" data-testid="keep-climate" disabled={missing !== null} onClick={() => void keep()}>{t("keep")}</button>
      </div>
    </Dialog>
  );
}

function rowText({ fields }: Row<"climate">): string {
  const values = { at: momentText(fields.at ?? "", reader.value), temperature: fields.bed ?? fields.air };
  return fields.forecast ? t("climate.forecast_line", values) : t("climate.line", values);
}

function ClimateLine({ row }: { row: Row<"climate"> }) {
  const what = rowText(row);
  return (
    <li class="line tall">
      <span>{what}</span>
      <Link to={pathOfHistory("climate", row.id)} class="button" label={t("history.of", { what })} testid="climate-history">{t("history.open")}</Link>
      {mayWrite.value && <button type="button" class="button" aria-label={t("remove_named", { what })} data-testid="remove-climate" onClick={() => void saved(deleteRecord("climate", row.id))}>{t("remove")}</button>}
    </li>
  );
}

/** What was typed, each line with its story. */
export function ClimateLines({ rows }: { rows: readonly Row<"climate">[] }) {
  return rows.length === 0 ? null : <ul class="lines">{rows.map((row) => <ClimateLine key={row.id} row={row} />)}</ul>;
}

export function AddClimate({ room }: { room: RoomView }) {
  const [open, setOpen] = useState(false);
  if (!mayWrite.value) return null;
  return (
    <>
      <button type="button" class="button wide" data-testid="add-climate" onClick={() => setOpen(true)}>{t("climate.add")}</button>
      {open && <WeatherDialog room={room} onClose={() => setOpen(false)} />}
    </>
  );
}
