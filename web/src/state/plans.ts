/**
 * A room's plan, computed again whenever what it rests on changes, and only while somebody looks at it: at first
 * without the statistics of the floor, so that nobody waits for those, then whole.
 */
import { effect, signal, type ReadonlySignal, type Signal } from "@preact/signals";
import type { Plan, Problem } from "../wire";
import { documentTextOf } from "./document";
import { port } from "./ports";
import { engineState } from "./status";

export interface PlanState {
  /** waking: the engine is not up yet · computing · ready · problems: the document gives no plan · failed: the engine broke. */
  readonly status: "waking" | "computing" | "ready" | "problems" | "failed";
  /** The newest plan there is; while `status` is not "ready" it may belong to an earlier state of the room. */
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  /** When `plan` was computed, ISO 8601. */
  readonly at: string | null;
}

const NOTHING: PlanState = { status: "waking", plan: null, problems: [], at: null };
const plans = new Map<string, Signal<PlanState>>();

/**
 * The plan of a room as a signal. Read `.value` in a component: the room is planned while at least one component
 * (or effect) watches, and again by itself after every change of its records.
 */
export function planOf(roomId: string): ReadonlySignal<PlanState> {
  const known = plans.get(roomId) ?? watchedPlan(roomId);
  plans.set(roomId, known);
  return known;
}

function watchedPlan(roomId: string): Signal<PlanState> {
  let stop: (() => void) | null = null;
  const plan = signal<PlanState>(NOTHING, {
    watched: () => {
      stop = effect(() => replan(roomId, plan, documentTextOf(roomId).value));
    },
    unwatched: () => stop?.(),
  });
  return plan;
}

function replan(roomId: string, plan: Signal<PlanState>, document: string | null): void {
  const before = plan.peek();
  if (document === null) {
    plan.value = { ...NOTHING, status: "problems" };
    return;
  }
  plan.value = { ...before, status: engineState.peek() === "awake" ? "computing" : "waking" };
  const key = `plan:${roomId}`;
  void port("engine")
    .ask("quick_plan", key, document)
    .then(async (text) => {
      if (showAnswer(plan, text)) showAnswer(plan, await port("engine").ask("plan", key, document));
    })
    .catch((error: unknown) => showFailure(plan, error));
}

/** True where the answer is a plan. */
function showAnswer(plan: Signal<PlanState>, text: string): boolean {
  const answer = JSON.parse(text) as Plan | { readonly problems: readonly Problem[] };
  if ("problems" in answer) {
    plan.value = { ...plan.peek(), status: "problems", problems: answer.problems };
    return false;
  }
  plan.value = { status: "ready", plan: answer, problems: [], at: new Date().toISOString() };
  return true;
}

/** A question that a later one replaced is no failure: the later answer is on its way. */
function showFailure(plan: Signal<PlanState>, error: unknown): void {
  if (error instanceof Error && error.name === "AbortError") return;
  plan.value = { ...plan.peek(), status: "failed" };
}
