/** Questions beside the plan, asked once and answered once: of the engine on this phone, and a scan of the office. */
import type { Problem, QuestionName, ScanOutcome, ScanStep, ScanWish } from "../wire";
import { port } from "./ports";

/** problems: what was asked holds something wrong · failed: the engine broke · replaced: a newer question took its place. */
export type Asked<T> =
  | { readonly outcome: "answered"; readonly answer: T }
  | { readonly outcome: "problems"; readonly problems: readonly Problem[] }
  | { readonly outcome: "failed" | "replaced" };

/** Asks the engine; never throws for what it answers. A later question under the same key replaces this one. */
export async function askEngine<T extends object>(question: QuestionName, key: string, given: object): Promise<Asked<T>> {
  try {
    const answer = JSON.parse(await port("engine").ask(question, key, JSON.stringify(given))) as T | { readonly problems: readonly Problem[] };
    return isRefusal(answer) ? { outcome: "problems", problems: answer.problems } : { outcome: "answered", answer };
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    if (error.name === "AbortError") return { outcome: "replaced" };
    if (error.name === "EngineBroke") return { outcome: "failed" };
    throw error;
  }
}

/** What could not be read answers with problems and nothing else. */
function isRefusal(answer: object): answer is { readonly problems: readonly Problem[] } {
  return "problems" in answer && Object.keys(answer).length === 1;
}

/** Has readings made of a dense scan by the office; nothing is stored. Never rejects: the outcome says how it ended. */
export function readScan(room: string, file: Blob, wish: ScanWish, onStep: (step: ScanStep) => void, signal: AbortSignal): Promise<ScanOutcome> {
  return port("scans").read({ room, file, wish, onStep, signal });
}
