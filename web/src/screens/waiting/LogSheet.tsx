/** A logger's file: what was understood of it, what to read otherwise, and the last word before anything is taken. */
import { useState } from "preact/hooks";
import { addTemperatureLog } from "../../state";
import type { LogInAnswer } from "../../wire";
import { t, type WordKey } from "../../words";
import { Choice } from "../common/Choice";
import { Dialog } from "../common/Dialog";
import { FileButton } from "../common/FileButton";
import type { Form } from "../common/form";
import { NoAnswer } from "../common/Notes";
import { problemText } from "../common/plan";
import { saved } from "../common/saving";
import { textFromFile } from "../tables/text";
import { LARGEST, useLogIn, type LogFile, type LogIn, type LogWish } from "./useLogIn";

const PROBLEMS_SHOWN = 8;
const NAME_LONGEST = 200;
export const LOG_FILES = ".csv,.txt,.tsv,text/csv,text/plain,text/tab-separated-values";

/** The file's text, or why there is none. */
export async function logFileFrom(file: File): Promise<LogFile | WordKey> {
  if (file.size > LARGEST) return "log.too_large";
  try {
    return { name: file.name.slice(0, NAME_LONGEST), text: await textFromFile(file) };
  } catch (error) {
    if (error instanceof DOMException) return "log.not_text"; // the phone would not let go of it
    throw error;
  }
}

interface AnswerProps {
  readonly answer: LogInAnswer;
  readonly form: Form<LogWish>;
}

/** How dates are read, as one word. */
const DAYS = { month: { day_first: false, year_first: false }, day: { day_first: true, year_first: false }, year: { day_first: false, year_first: true } };

function Facts({ answer }: { answer: LogInAnswer }) {
  const { start, seconds, lowest, highest, doubled, passed_over: lines, order, clock_set_line: line } = answer;
  if (start === null) return null;
  const to = new Date(Date.parse(start) + (seconds.at(-1) ?? 0) * 1000).toISOString();
  return (
    <div class="log-facts" data-testid="log-facts">
      <p><strong>{t("log.facts", { rows: seconds.length, from: start, to })}</strong></p>
      {lowest !== null && highest !== null && <p>{t("log.extremes", { lowest, highest })}</p>}
      {doubled > 0 && <p class="quiet small">{t("log.doubled", { doubled })}</p>}
      {lines > 0 && <p class="caution" data-testid="log-passed-over">{t("log.passed_over", { lines })}</p>}
      {order === "mixed" && <p class="caution" data-testid="log-not-in-order">{t("log.not_in_order")}</p>}
      {line !== null && <p class="caution" data-testid="log-clock-set">{t("log.clock_set", { line })}</p>}
      {answer.day_doubtful && <p class="caution" data-testid="log-days-doubtful">{t("log.days_doubtful")}</p>}
      {answer.time_doubtful && <p class="caution" data-testid="log-time-doubtful">{t("log.time_doubtful")}</p>}
      {answer.temperature_doubtful && <p class="caution" data-testid="log-temperature-doubtful">{t("log.temperature_doubtful")}</p>}
    </div>
  );
}

function Problems({ answer }: { answer: LogInAnswer }) {
  const { problems, problem_count: count } = answer;
  if (count === 0) return null;
  const shown = problems.slice(0, PROBLEMS_SHOWN);
  return (
    <div class="stack tight" role="alert">
      <p class="caution" data-testid="log-problems">{t("log.problems", { count })}</p>
      <ul class="log-problems">{shown.map((problem, index) => <li key={index} data-code={problem.code}>{problemText(problem)}</li>)}</ul>
      {count > shown.length && <p class="quiet small">{t("log.more_problems", { count: count - shown.length })}</p>}
    </div>
  );
}

function FirstRows({ answer }: { answer: LogInAnswer }) {
  const { names, first_rows: rows, time_column: time, temperature_column: temperature } = answer;
  const mark = (column: number) => (column === time || column === temperature ? "is-read" : "");
  if (rows.length === 0) return null;
  return (
    <div class="stack tight">
      <h3>{t("log.first_rows")}</h3>
      <div class="log-rows" tabIndex={0} role="group" aria-label={t("log.first_rows")}>
        <table translate={false}>
          {names.length > 0 && <thead><tr>{names.map((name, column) => <th key={column} scope="col" class={mark(column)}>{name}</th>)}</tr></thead>}
          <tbody>{rows.map((row, index) => <tr key={index}>{row.map((cell, column) => <td key={column} class={mark(column)}>{cell}</td>)}</tr>)}</tbody>
        </table>
      </div>
    </div>
  );
}

function ColumnChoice({ answer, form, of, label }: AnswerProps & { readonly of: "time_column" | "temperature_column"; readonly label: string }) {
  const count = Math.max(answer.names.length, ...answer.first_rows.map((row) => row.length), 0);
  const name = (column: number) => { const own = answer.names[column]; return own ? t("log.column", { number: column + 1, name: own }) : t("log.column_bare", { number: column + 1 }); };
  const value = answer[of] ?? form.values[of];
  return (
    <div class="field">
      <label for={`log-${of}`}>{label}</label>
      <select id={`log-${of}`} data-testid={`log-${of}`} value={value === null ? "" : `${value}`} onChange={(event) => form.set({ [of]: event.currentTarget.value === "" ? null : Number(event.currentTarget.value) })}>
        <option value="">{t("log.column_found")}</option>
        {Array.from({ length: count }, (_, column) => <option key={column} value={`${column}`}>{name(column)}</option>)}
      </select>
    </div>
  );
}

function HowRead({ answer, form }: AnswerProps) {
  const days = answer.year_first ? "year" : answer.day_first ? "day" : "month";
  return (
    <>
      <Choice label={t("log.unit")} name="log-unit" value={answer.unit} onChoose={(unit) => form.set({ unit })} options={[{ value: "celsius", label: t("log.celsius") }, { value: "fahrenheit", label: t("log.fahrenheit") }]} />
      <p class="quiet small" data-testid="log-unit-reason">{t(`log.unit_${answer.unit_reason}`)}</p>
      <Choice label={t("log.days")} name="log-days" value={days} onChoose={(value) => form.set(DAYS[value])} options={[{ value: "month", label: t("log.month_first") }, { value: "day", label: t("log.day_first") }, { value: "year", label: t("log.year_first") }]} />
      <Choice label={t("log.where")} name="log-where" value={form.values.where} onChoose={(where) => form.set({ where })} options={[{ value: "bed", label: t("climate.bed") }, { value: "air", label: t("climate.air") }]} />
      <ColumnChoice answer={answer} form={form} of="time_column" label={t("log.time_column")} />
      <ColumnChoice answer={answer} form={form} of="temperature_column" label={t("log.temperature_column")} />
    </>
  );
}

function Taking({ room, log, answer, onClose }: { room: string; log: LogIn; answer: LogInAnswer; onClose: () => void }) {
  const { start, seconds, celsius, where, problem_count: problems } = answer;
  const take = async () => {
    const name = log.file?.name ?? "";
    const taken = { start, seconds, celsius, where, ...(name === "" ? {} : { name }) };
    if (!(await saved(addTemperatureLog(room, taken, { draft: log.draft })))) return;
    log.form.clear();
    onClose();
  };
  if (start === null || problems > 0 || seconds.length === 0) return null;
  return <button type="button" class="button main wide" data-testid="keep-log" onClick={() => void take()}>{t("log.keep", { rows: seconds.length })}</button>;
}

function Body({ room, log, onClose }: { room: string; log: LogIn; onClose: () => void }) {
  const { asked, form } = log;
  if (asked === null) return <p class="notice" role="status">{t("log.reading")}</p>;
  if (asked.outcome !== "answered") return <NoAnswer asked={asked} />;
  const { answer } = asked;
  return (
    <>
      <Facts answer={answer} />
      <Problems answer={answer} />
      <Taking room={room} log={log} answer={answer} onClose={onClose} />
      <FirstRows answer={answer} />
      <HowRead answer={answer} form={form} />
    </>
  );
}

export function LogSheet({ room, onClose }: { room: string; onClose: () => void }) {
  const log = useLogIn(room);
  const [refused, setRefused] = useState<WordKey | null>(null);
  const bring = async (file: File) => {
    const found = await logFileFrom(file);
    setRefused(typeof found === "string" ? found : null);
    if (typeof found !== "string") log.bring(found);
  };
  return (
    <Dialog title={log.file?.name ?? t("log.title")} testid="log" onClose={onClose}>
      <div class="stack tight">
        <p class="quiet small">{t("log.about")}</p>
        {refused !== null && <p class="caution" role="alert" data-testid="log-refused">{t(refused)}</p>}
        {log.file && <Body room={room} log={log} onClose={onClose} />}
        <FileButton label={log.file ? t("log.another") : t("log.take")} testid="log-file" accept={LOG_FILES} onFile={(file) => void bring(file)} />
        {log.file && <button type="button" class="button wide" data-testid="log-let-go" onClick={() => { log.clear(); onClose(); }}>{t("log.let_go")}</button>}
      </div>
    </Dialog>
  );
}
