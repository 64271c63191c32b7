/**
 * The engine in the browser's Python, under Node: each line of standard input is a room document, each line of
 * standard output its plan, in the same order. For comparing it with the engine in the service's Python.
 *
 *   node build/run_engine.mjs < documents.jsonl > plans.jsonl
 */
import { dirname } from "node:path";
import { createInterface } from "node:readline";
import { loadPyodide } from "pyodide";
import { engineFiles } from "./engine_files.mjs";

const ROOT = "/engine";

async function startEngine() {
  const python = await loadPyodide();
  for (const [path, text] of Object.entries(engineFiles())) {
    python.FS.mkdirTree(dirname(`${ROOT}/${path}`));
    python.FS.writeFile(`${ROOT}/${path}`, text);
  }
  python.runPython(`import sys; sys.path.insert(0, "${ROOT}")`);
  return python.pyimport("evenbed.engine.bridge").plan_text;
}

const planText = await startEngine();
for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() !== "") process.stdout.write(`${planText(line)}\n`);
}
