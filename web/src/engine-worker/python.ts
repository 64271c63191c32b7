/**
 * Starts the browser's Python with the engine's own files, all from our own origin. The first start takes seconds and
 * leaves a picture of its memory on the phone; later starts with the same files begin from the picture.
 */
import { archiveUrl, lock, pythonFolder } from "virtual:engine";
import { dropSnapshots, loadSnapshot, saveSnapshot } from "./snapshot";

const ROOT = "/engine";
/**
 * Most of what the first plan would load anyway, so that the picture holds it. The rest comes when it is awake: a
 * picture larger than the memory that Python starts with cannot be put back.
 */
const WARM_UP = `import sys; sys.path.insert(0, "${ROOT}"); import evenbed.engine.worked_layout`;

export type AnswerText = (question: string, text: string) => string;

export interface Started {
  readonly answerText: AnswerText;
  readonly fromSnapshot: boolean;
}

/** The part of the browser's Python that is used here. The marked ones are experimental: the version is pinned. */
interface Python {
  readonly FS: { mkdirTree(path: string): void; writeFile(path: string, text: string): void };
  runPython(code: string): unknown;
  pyimport(module: string): unknown;
  /** Experimental. */
  makeMemorySnapshot(): Uint8Array<ArrayBuffer>;
}

interface PythonModule {
  /** `_makeSnapshot` and `_loadSnapshot` are experimental. */
  loadPyodide(options: {
    indexURL: string;
    packageBaseUrl: string;
    lockFileContents: string;
    _makeSnapshot?: true;
    _loadSnapshot?: Uint8Array<ArrayBuffer>;
  }): Promise<Python>;
}

/** Throws where a file is missing or Python does not start; the worker then says so and is ended. */
export async function startEngine(): Promise<Started> {
  const [module, files, snapshot] = await Promise.all([loadModule(), loadArchive(), loadSnapshot(snapshotName())]);
  if (snapshot === null) return coldStart(module, files);
  try {
    return await warmStart(module, files, snapshot);
  } catch (error) {
    console.warn("The picture of the engine's memory was of no use; starting without it.", error);
    await dropSnapshots();
    return coldStart(module, files);
  }
}

/** A picture fits only the very same Python and engine files. */
function snapshotName(): string {
  return `${pythonFolder}${archiveUrl.slice(archiveUrl.lastIndexOf("/") + 1)}`;
}

type Files = Readonly<Record<string, string>>;
const ours = { indexURL: pythonFolder, packageBaseUrl: pythonFolder, lockFileContents: lock };

async function coldStart(module: PythonModule, files: Files): Promise<Started> {
  const python = await module.loadPyodide({ ...ours, _makeSnapshot: true });
  writeFiles(python, files);
  python.runPython(WARM_UP);
  void saveSnapshot(snapshotName(), python.makeMemorySnapshot());
  return { answerText: answerTextOf(python), fromSnapshot: false };
}

/** The picture holds memory, not files: they are written again, for what the engine reads of itself. */
async function warmStart(module: PythonModule, files: Files, snapshot: Uint8Array<ArrayBuffer>): Promise<Started> {
  const python = await module.loadPyodide({ ...ours, _loadSnapshot: snapshot });
  writeFiles(python, files);
  return { answerText: answerTextOf(python), fromSnapshot: true };
}

function answerTextOf(python: Python): AnswerText {
  return (python.pyimport("evenbed.engine.bridge") as { answer_text: AnswerText }).answer_text;
}

async function loadModule(): Promise<PythonModule> {
  return (await import(/* @vite-ignore */ `${pythonFolder}pyodide.mjs`)) as PythonModule;
}

async function loadArchive(): Promise<Files> {
  const response = await fetch(archiveUrl);
  if (!response.ok) throw new Error(`The engine's files did not come: ${response.status}`);
  return (await response.json()) as Files;
}

function writeFiles(python: Python, files: Files): void {
  for (const [path, text] of Object.entries(files)) {
    python.FS.mkdirTree(`${ROOT}/${path.slice(0, path.lastIndexOf("/"))}`);
    python.FS.writeFile(`${ROOT}/${path}`, text);
  }
}
