/** Reading the plan: cautions where they stand, explanations by path, problems in the person's words. */
import type { Caution, Explanation, Plan, Problem } from "../../wire";
import { t, told } from "../../words";
import { setupInSentence } from "../levels/names";

/** What carries cautions and explanations: a plan, or the answer about a bed alone. */
export type Explained = Pick<Plan, "explanations">;
export type Cautioned = Pick<Plan, "cautions">;

/** Cautions that stand at `where` or below it: `bed` takes those at `bed.load`. */
export function cautionsAt(plan: Cautioned, ...places: readonly string[]): readonly Caution[] {
  return plan.cautions.filter(({ where }) => places.some((place) => where === place || where.startsWith(`${place}.`) || where.startsWith(`${place}[`)));
}

export function cautionText({ code, text, values }: Caution): string {
  return told("caution", code, named(values), text);
}

/** The explanation of a figure by its path; a path into a list falls back to the entry it belongs to. */
export function explanationOf(plan: Explained, path: string): Explanation | null {
  const parent = path.replace(/\.[^.]*$/, "");
  return plan.explanations[path] ?? (parent !== path ? plan.explanations[parent] ?? null : null);
}

/** The engine names set-ups by their ids; a person knows them otherwise. */
function named(values: Problem["values"]): Problem["values"] {
  const { setup } = values;
  return typeof setup === "string" ? { ...values, setup: setupInSentence(setup) } : values;
}

/** Codes whose sentence tells of a value and not of which. */
const SAYS_NOT_WHERE: ReadonlySet<string> = new Set(["too_small", "too_large"]);
const KINDS_OF_CHOICES = ["room", "supplies", "prices"] as const;

/** Choices that are lengths: told in the person's units. A tolerance's least is less than those can tell. */
const LENGTHS = /^(rails\.(straightedge|bearing|inset|overlap|station_spacing|strip)|bed\.(minimum|maximum)_thickness)(?!.*\.count$)/;

export function problemText(problem: Problem): string {
  const asLength = SAYS_NOT_WHERE.has(problem.code) && LENGTHS.test(problem.path) ? told("problem_length", problem.code, problem.values, "") : "";
  const what = asLength || told("problem", problem.code, named(problem.values), problem.message);
  const where = SAYS_NOT_WHERE.has(problem.code) ? choiceAt(problem.path) : "";
  return where === "" ? what : t("said.at", { where, what });
}

/** What a choice of the room or of the company is called, by its path in the document; empty for anything else. */
function choiceAt(path: string): string {
  const whole = path.replace(/\[\d+\].*$/, ""); // of a list, the list
  return KINDS_OF_CHOICES.map((kind) => told(`named.${kind}`, whole, {}, "")).find((name) => name !== "") ?? "";
}
