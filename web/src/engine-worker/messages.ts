/** What crosses between the page and the engine's worker: texts and numbers alone. */
export interface Question {
  readonly id: number;
  readonly question: string;
  readonly text: string;
}

export type Answer =
  | { readonly say: "awake"; readonly tookMs: number; readonly fromSnapshot: boolean }
  /** The engine is broken for good: this worker must be ended. `id` is the question it broke on, if any. */
  | { readonly say: "broken"; readonly why: string; readonly id: number | null }
  | { readonly say: "answer"; readonly id: number; readonly text: string };
