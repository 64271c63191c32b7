/**
 * The engine in the browser's Python, under Node: each line of standard input is a room document, each line of
 * standard output its plan, in the same order. For comparing it with the engine in the service's Python.
 * A line may begin with a question's name and a tab: then it asks that, and not for the plan.
 *
 *   node build/run_engine.mjs < documents.jsonl > plans.jsonl
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { loadPyodide } from "pyodide";
import { engineFiles } from "./engine_files.mjs";
import { pythonLibrary } from "./python_library.mjs";

const ROOT = "/engine";

/** Python with the same smaller library as on the phone. */
async function startPython() {
  const folder = mkdtempSync(join(tmpdir(), "evenbed-python-"));
  const stdLibURL = join(folder, "python_stdlib.zip");
  writeFileSync(stdLibURL, pythonLibrary());
  try {
    return await loadPyodide({ stdLibURL });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function startEngine() {
  const python = await startPython();
  for (const [path, text] of Object.entries(engineFiles())) {
    python.FS.mkdirTree(dirname(`${ROOT}/${path}`));
    python.FS.writeFile(`${ROOT}/${path}`, text);
  }
  python.runPython(`import sys; sys.path.insert(0, "${ROOT}")`);
  return python.pyimport("evenbed.engine.bridge").answer_text;
}

const answerText = await startEngine();
for await (const line of createInterface({ input: process.stdin })) {
  const [, question = "plan", text = line] = /^(\w+)\t(.*)$/.exec(line) ?? [];
  if (line.trim() !== "") process.stdout.write(`${answerText(question, text)}\n`);
}
