/** Starts the browser's Python with the engine's own files, all from our own origin. */
import { archiveUrl, lock, pythonFolder } from "virtual:engine";

const ROOT = "/engine";

type PlanText = (document: string) => string;

/** The part of the browser's Python that is used here. */
interface Python {
  readonly FS: { mkdirTree(path: string): void; writeFile(path: string, text: string): void };
  runPython(code: string): unknown;
  pyimport(module: string): unknown;
}

interface PythonModule {
  loadPyodide(options: object): Promise<Python>;
}

/** Throws where a file is missing or Python does not start; the worker then says so and is ended. */
export async function startEngine(): Promise<PlanText> {
  const archive = loadArchive();
  const python = await startPython();
  for (const [path, text] of Object.entries(await archive)) writeFile(python, `${ROOT}/${path}`, text);
  python.runPython(`import sys; sys.path.insert(0, "${ROOT}")`);
  const bridge = python.pyimport("evenbed.engine.bridge") as { plan_text: PlanText };
  return bridge.plan_text;
}

async function startPython(): Promise<Python> {
  const module = (await import(/* @vite-ignore */ `${pythonFolder}pyodide.mjs`)) as PythonModule;
  return module.loadPyodide({ indexURL: pythonFolder, lockFileContents: lock, packageBaseUrl: pythonFolder });
}

async function loadArchive(): Promise<Readonly<Record<string, string>>> {
  const response = await fetch(archiveUrl);
  if (!response.ok) throw new Error(`The engine's files did not come: ${response.status}`);
  return (await response.json()) as Record<string, string>;
}

function writeFile(python: Python, path: string, text: string): void {
  python.FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
  python.FS.writeFile(path, text);
}
