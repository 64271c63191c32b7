import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Bridge, EngineBroke, type EngineState, type WorkerLike } from "../../src/bridge";
import type { Answer, Question } from "../../src/engine-worker/messages";

/** A worker's outside: the test plays the engine. */
class PlayedWorker implements WorkerLike {
  onmessage: ((event: MessageEvent<Answer>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  readonly questions: Question[] = [];
  isEnded = false;

  postMessage(question: Question): void {
    this.questions.push(question);
  }

  terminate(): void {
    this.isEnded = true;
  }

  say(answer: Answer): void {
    this.onmessage?.({ data: answer } as MessageEvent<Answer>);
  }

  wake(): void {
    this.say({ say: "awake", tookMs: 1, fromSnapshot: false });
  }

  /** Answers the newest question with its own text. */
  answer(): void {
    const { id, text } = this.questions.at(-1) as Question;
    this.say({ say: "answer", id, text: `plan of ${text}` });
  }
}

let workers: PlayedWorker[];
let states: EngineState[];
let bridge: Bridge;

beforeEach(() => {
  workers = [];
  states = [];
  const make = () => {
    const worker = new PlayedWorker();
    workers.push(worker);
    return worker;
  };
  bridge = new Bridge(make, (state) => states.push(state));
});
afterEach(() => vi.useRealTimers());

function worker(): PlayedWorker {
  return workers.at(-1) as PlayedWorker;
}

test("a question asked while the engine wakes is answered once it is awake", async () => {
  bridge.wake();
  const plan = bridge.ask("quick_plan", "hall", "A");
  expect(worker().questions).toEqual([]);
  worker().wake();
  worker().answer();
  expect(await plan).toBe("plan of A");
  expect(states).toEqual(["waking", "awake"]);
});

test("one question at a time, in the order they came, and the newest of each room only", async () => {
  const plans = [bridge.ask("quick_plan", "hall", "A"), bridge.ask("quick_plan", "hall", "B"), bridge.ask("quick_plan", "bath", "C"), bridge.ask("quick_plan", "hall", "D")];
  worker().wake();
  await expect(plans[0]).rejects.toMatchObject({ name: "AbortError" });
  await expect(plans[1]).rejects.toMatchObject({ name: "AbortError" });
  expect(worker().questions.map((question) => question.text)).toEqual(["C"]);
  worker().answer();
  worker().answer();
  expect(await plans[2]).toBe("plan of C");
  expect(await plans[3]).toBe("plan of D");
});

test("the answer to a question that was replaced while it ran is not used", async () => {
  const old = bridge.ask("quick_plan", "hall", "A");
  worker().wake();
  const newer = bridge.ask("quick_plan", "hall", "B");
  await expect(old).rejects.toMatchObject({ name: "AbortError" });
  worker().answer();
  worker().answer();
  expect(await newer).toBe("plan of B");
});

test("a worker that breaks is ended, another is started, and the question is asked once more", async () => {
  const plan = bridge.ask("quick_plan", "hall", "A");
  worker().wake();
  worker().say({ say: "broken", why: "out of memory", id: 1 });
  expect(workers.map((one) => one.isEnded)).toEqual([true, false]);
  worker().wake();
  worker().answer();
  expect(await plan).toBe("plan of A");
});

test("a question that breaks two workers fails, and the next room still gets its plan", async () => {
  const fatal = bridge.ask("quick_plan", "hall", "A");
  const other = bridge.ask("quick_plan", "bath", "B");
  for (const id of [1, 1]) {
    worker().wake();
    worker().say({ say: "broken", why: "out of memory", id });
  }
  await expect(fatal).rejects.toBeInstanceOf(EngineBroke);
  worker().wake();
  worker().answer();
  expect(await other).toBe("plan of B");
});

test("an engine that cannot start is failed after three tries, and the next question tries again", async () => {
  const plan = bridge.ask("quick_plan", "hall", "A");
  for (let n = 0; n < 3; n++) worker().say({ say: "broken", why: "no files", id: null });
  await expect(plan).rejects.toBeInstanceOf(EngineBroke);
  expect(states.at(-1)).toBe("failed");
  expect(workers).toHaveLength(3);
  const again = bridge.ask("quick_plan", "hall", "B");
  worker().wake();
  worker().answer();
  expect(await again).toBe("plan of B");
});

test("a worker that never answers is ended", async () => {
  vi.useFakeTimers();
  const plan = bridge.ask("quick_plan", "hall", "A");
  worker().wake();
  await vi.advanceTimersByTimeAsync(120_000);
  expect(workers.map((one) => one.isEnded)).toEqual([true, false]);
  worker().wake();
  worker().answer();
  expect(await plan).toBe("plan of A");
});

test("whole plans, with their statistics, wait until nothing else does", async () => {
  const whole = bridge.ask("plan", "plan:hall", "A");
  const quick = bridge.ask("quick_plan", "plan:bath", "B");
  worker().wake();
  expect(worker().questions.map(({ question }) => question)).toEqual(["quick_plan"]);
  worker().answer();
  worker().answer();
  expect(await Promise.all([whole, quick])).toEqual(["plan of A", "plan of B"]);
});
