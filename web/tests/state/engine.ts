/** The engine in the project's Python, where that is set up: many questions in one process. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";

const ROOT = join(import.meta.dirname, "..", "..", "..");
const PYTHON = join(ROOT, ".venv", "bin", "python");
const ASK = `
import json, sys
from evenbed.engine.bridge import answer_text
for line in sys.stdin:
    question, text = json.loads(line)
    print(answer_text(question, text))
`;

export const hasEngine = existsSync(PYTHON);

export type Asked = readonly [question: string, given: unknown];

/** The answers, in the order of the questions. */
export function answersTo(asked: readonly Asked[]): readonly Readonly<Record<string, unknown>>[] {
  const input = asked.map(([question, given]) => JSON.stringify([question, JSON.stringify(given)])).join("\n");
  const env = { ...process.env, PYTHONPATH: join(ROOT, "server") };
  const { stdout, stderr, status } = spawnSync(PYTHON, ["-c", ASK], { input, env, encoding: "utf-8", maxBuffer: 1e9 });
  if (status !== 0) throw new Error(`The engine ended with ${status}: ${stderr}`);
  return stdout.trim().split("\n").map((line) => JSON.parse(line) as Readonly<Record<string, unknown>>);
}
