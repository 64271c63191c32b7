/** The engine's worker: wakes as soon as it is made, then answers each question. */
import type { Answer, Question } from "./messages";
import { startEngine } from "./python";

function say(answer: Answer): void {
  self.postMessage(answer);
}

function sayBroken(error: unknown, id: number | null): void {
  say({ say: "broken", why: error instanceof Error ? error.message : String(error), id });
}

const began = performance.now();
const waking = startEngine();
waking.then(
  ({ fromSnapshot }) => say({ say: "awake", tookMs: performance.now() - began, fromSnapshot }),
  (error: unknown) => sayBroken(error, null),
);

self.addEventListener("message", (event: MessageEvent<Question>) => {
  const { id, question, text } = event.data;
  // A bad document is an answer. Whatever is thrown here is a fault of the engine or the end of its memory.
  void waking.then(({ answerText }) => {
    try {
      say({ say: "answer", id, text: answerText(question, text) });
    } catch (error) {
      sayBroken(error, id);
    }
  });
});
