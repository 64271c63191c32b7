/**
 * The page's side of the engine: one worker, one question at a time. A newer question under the same key replaces the
 * older one, whose promise ends with an AbortError. A worker that breaks or hangs is ended, another is started, and
 * the question is asked once more. A whole plan, which takes longest, waits until nothing else does.
 */
import type { Answer, Question } from "../engine-worker/messages";

export type EngineState = "waking" | "awake" | "failed";

/** The part of a Worker that the bridge uses. */
export interface WorkerLike {
  postMessage(question: Question): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Answer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

interface Asked {
  readonly id: number;
  readonly key: string;
  readonly question: string;
  readonly text: string;
  readonly answer: (text: string) => void;
  readonly fail: (error: Error) => void;
  tries: number;
}

type Awake = Extract<Answer, { readonly say: "awake" }>;

const MOST_TRIES = 2;
/** Workers that broke one after the other before the engine counts as failed until the next question. */
const MOST_BREAKS = 3;
/** A plan that takes longer has hung: the largest rooms take seconds on a slow phone. */
const LONGEST_ANSWER_MS = 120_000;

export class EngineBroke extends Error {
  constructor(why: string) {
    super(`The engine broke: ${why}`);
    this.name = "EngineBroke";
  }
}

export class Bridge {
  #worker: WorkerLike | null = null;
  #isAwake = false;
  #breaks = 0;
  #nextId = 1;
  #asking: Asked | null = null;
  #waiting: Asked[] = [];
  #alarm: ReturnType<typeof setTimeout> | null = null;

  constructor(
    readonly makeWorker: () => WorkerLike,
    readonly onState: (state: EngineState) => void = () => undefined,
  ) {}

  /** Starts the engine, so that it is awake when the first plan is wanted. */
  wake(): void {
    if (this.#worker !== null) return;
    this.#isAwake = false;
    this.onState("waking");
    const worker = this.makeWorker();
    worker.onmessage = (event) => this.#hear(event.data);
    worker.onerror = (event) => this.#broke(event.message);
    this.#worker = worker;
  }

  /** Asks the engine; JSON text both ways. */
  ask(question: string, key: string, text: string): Promise<string> {
    this.#replace(key);
    return new Promise((answer, fail) => {
      this.#waiting.push({ id: this.#nextId++, key, question, text, answer, fail, tries: 0 });
      this.wake();
      this.#askNext();
    });
  }

  #replace(key: string): void {
    const replaced = new DOMException("A newer question came", "AbortError");
    for (const asked of this.#waiting) if (asked.key === key) asked.fail(replaced);
    this.#waiting = this.#waiting.filter((asked) => asked.key !== key);
    // What runs cannot be stopped without ending the worker: its answer comes soon and is not used.
    if (this.#asking?.key === key) this.#asking.fail(replaced);
  }

  #askNext(): void {
    if (!this.#isAwake || this.#asking !== null) return;
    const next = this.#waiting.find(({ question }) => question !== "plan") ?? this.#waiting[0];
    if (next === undefined) return;
    this.#waiting = this.#waiting.filter((asked) => asked !== next);
    next.tries += 1;
    this.#asking = next;
    this.#alarm = setTimeout(() => this.#broke("no answer in time"), LONGEST_ANSWER_MS);
    this.#worker?.postMessage({ id: next.id, question: next.question, text: next.text });
  }

  #hear(answer: Answer): void {
    if (answer.say === "broken") this.#broke(answer.why);
    else if (answer.say === "awake") this.#awoke(answer);
    else this.#answered(answer.id, answer.text);
  }

  #awoke({ tookMs, fromSnapshot }: Awake): void {
    this.#isAwake = true;
    performance.measure("engine wakes", { duration: tookMs, start: 0, detail: { fromSnapshot } });
    this.onState("awake");
    this.#askNext();
  }

  #answered(id: number, text: string): void {
    this.#breaks = 0;
    const asked = this.#takeAsking();
    if (asked?.id === id) asked.answer(text);
    this.#askNext();
  }

  #takeAsking(): Asked | null {
    if (this.#alarm !== null) clearTimeout(this.#alarm);
    const asked = this.#asking;
    this.#asking = null;
    return asked;
  }

  #broke(why: string): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#isAwake = false;
    this.#breaks += 1;
    const asked = this.#takeAsking();
    if (asked !== null && asked.tries < MOST_TRIES) this.#waiting.unshift(asked);
    else asked?.fail(new EngineBroke(why));
    if (this.#breaks < MOST_BREAKS) this.wake();
    else this.#giveUp(why);
  }

  /** Until the next question, which tries again from the start. */
  #giveUp(why: string): void {
    this.#breaks = 0;
    this.onState("failed");
    for (const asked of this.#waiting) asked.fail(new EngineBroke(why));
    this.#waiting = [];
  }
}
