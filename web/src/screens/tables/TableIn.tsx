/** Readings from a table: a file or pasted text, how it is read, what is wrong with it, and what would be taken. */
import type { ComponentChildren } from "preact";
import type { Problem, TableInAnswer } from "../../wire";
import { t, told } from "../../words";
import { FileButton } from "../common/FileButton";
import { problemText } from "../common/plan";
import type { RoomView } from "../common/useRoom";
import { HowRead } from "./HowRead";
import { Placing } from "./Placing";
import { TakeBar } from "./TakeBar";
import { textFromFile } from "./text";
import type { TableIn as State } from "./useTableIn";

const MOST_SHOWN = 30; // problems on the screen; the count tells the rest

function Problems({ problems, count }: { problems: readonly Problem[]; count: number }) {
  return (
    <section class="stack tight" data-testid="table-problems" role="alert">
      <p class="caution">{t("table.refused", { count })}</p>
      <ul class="lines">
        {problems.slice(0, MOST_SHOWN).map((problem, index) => <li key={index} class="caution" data-code={problem.code}>{problemText(problem)}</li>)}
      </ul>
      {count > MOST_SHOWN && <p class="quiet small">{t("table.more_problems", { count: count - MOST_SHOWN })}</p>}
    </section>
  );
}

function Source({ state }: { state: State }) {
  const take = (file: File) => { state.clear(); void textFromFile(file).then(state.read); };
  return (
    <section class="stack tight">
      <FileButton label={t("table.choose")} testid="table-file" accept=".csv,.txt,.tsv,.asc,.xyz,text/*" onFile={take} />
      <div class="field">
        <label for="table-text">{t("table.paste")}</label>
        <textarea id="table-text" class="table-text" rows={4} spellcheck={false} data-testid="table-text" value={state.text} onInput={(event) => state.read(event.currentTarget.value)} />
      </div>
      {state.text !== "" && <button type="button" class="button" data-testid="table-clear" onClick={state.clear}>{t("table.clear")}</button>}
    </section>
  );
}

function Answered({ room, state, answer }: { room: RoomView; state: State; answer: TableInAnswer }) {
  const { form } = state;
  const problems = answer.problem_count > 0 ? <Problems problems={answer.problems} count={answer.problem_count} /> : null;
  return (
    <>
      <p class="notice" data-testid="table-found">{t("table.found", { rows: answer.row_count })} {told("table.unit_because", answer.unit_reason, { unit: t(`unit.${answer.unit}`) }, "")}</p>
      {problems}
      <HowRead answer={answer} form={form} />
      {!problems && answer.lowered_by > 0 && <p class="notice" data-testid="table-lowered">{t("table.lowered", { by: answer.lowered_by })}</p>}
      {!problems && <Placing answer={answer} form={form} />}
      {!problems && <TakeBar room={room} found={state.found} how={form.values} onHow={form.set} from="table" draft={state.draft} onTaken={form.clear} />}
    </>
  );
}

function Body({ room, state }: { room: RoomView; state: State }): ComponentChildren {
  const { asked } = state;
  if (!asked) return <p class="quiet small">{t("table.how")}</p>;
  if (asked.outcome === "answered") return <Answered room={room} state={state} answer={asked.answer} />;
  if (asked.outcome === "problems") return <Problems problems={asked.problems} count={asked.problems.length} />;
  return <p class="caution" role="alert">{t("engine.failed")}</p>;
}

export function TableIn({ room, state }: { room: RoomView; state: State }) {
  return (
    <div class="stack">
      <Source state={state} />
      <Body room={room} state={state} />
    </div>
  );
}
