/** What the engine has to say: cautions where the decision is made, problems with their place, and how far it is. */
import type { Asked, PlanState } from "../../state";
import type { Caution } from "../../wire";
import { t } from "../../words";
import { cautionText, problemText } from "./plan";

export function Cautions({ cautions }: { cautions: readonly Caution[] }) {
  if (cautions.length === 0) return null;
  return (
    <ul class="cautions" data-testid="cautions">
      {cautions.map((caution, index) => <li key={index} class="caution" data-code={caution.code}>{cautionText(caution)}</li>)}
    </ul>
  );
}

/** Problems that only say "not yet" need no alarm: a room without readings has no plan. */
export const NOT_YET: ReadonlySet<string> = new Set(["too_few_readings", "readings_on_a_line"]);

function Problems({ state }: { state: PlanState }) {
  return (
    <ul class="stack tight" data-testid="problems">
      {state.problems.map((problem, index) => (
        <li key={index} class={NOT_YET.has(problem.code) ? "notice" : "caution"} data-code={problem.code}>{problemText(problem)}</li>
      ))}
    </ul>
  );
}

/** Why a question beside the plan got no answer: what is wrong with what was asked, or that the engine broke. */
export function NoAnswer({ asked }: { asked: Exclude<Asked<object>, { outcome: "answered" }> }) {
  if (asked.outcome !== "problems") return <p class="caution" role="alert">{t("engine.failed")}</p>;
  return <ul class="stack tight">{asked.problems.map((problem, index) => <li key={index} class="caution">{problemText(problem)}</li>)}</ul>;
}

/** One quiet line while the figures are on their way; never in front of the work. */
export function PlanNotes({ state }: { state: PlanState }) {
  if (state.status === "problems") return <Problems state={state} />;
  if (state.status === "failed") return <p class="caution" role="alert" data-testid="engine-failed">{t("engine.failed")}</p>;
  if (state.plan) return null;
  return <p class="notice" role="status" data-testid="engine-waking">{state.status === "waking" ? t("engine.waking") : t("engine.computing")}</p>;
}
