/** Puts the browser's Python (core files only) and the engine's files beside the app, under names that change with them. */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import { ENGINE_FOLDER, engineArchive } from "./engine_files.mjs";
import { PYTHON, pythonLibrary } from "./python_library.mjs";

const CORE_FILES = ["pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm"];
const ID = "virtual:engine";
const MIME: Readonly<Record<string, string>> = {
  mjs: "text/javascript",
  wasm: "application/wasm",
  zip: "application/zip",
  json: "application/json",
};

const version = (JSON.parse(readFileSync(join(PYTHON, "package.json"), "utf8")) as { version: string }).version;
const library = pythonLibrary();
const libraryHash = createHash("sha256").update(library).digest("hex").slice(0, 8);
/** The folder's name changes with anything in it: the library here depends on more than the version. */
const pythonFolder = `/assets/python-${version}-${libraryHash}/`;

/** Only what Python must know of itself: the list of further packages is left out, for none is ever loaded. */
function lockText(): string {
  const lock = JSON.parse(readFileSync(join(PYTHON, "pyodide-lock.json"), "utf8")) as { info: unknown };
  return JSON.stringify({ info: lock.info, packages: {} });
}

interface Served {
  readonly url: string;
  readonly bytes: Buffer;
}

function servedFiles(): readonly Served[] {
  const archive = engineArchive();
  return [
    ...CORE_FILES.map((name) => ({ url: pythonFolder + name, bytes: readFileSync(join(PYTHON, name)) })),
    { url: `${pythonFolder}python_stdlib.zip`, bytes: library },
    { url: archiveUrl(archive.hash), bytes: Buffer.from(archive.text) },
  ];
}

function archiveUrl(hash: string): string {
  return `/assets/engine-${hash}.json`;
}

function moduleText(): string {
  const { hash } = engineArchive();
  const values = { pythonFolder, archiveUrl: archiveUrl(hash), lock: lockText() };
  return Object.entries(values)
    .map(([name, value]) => `export const ${name} = ${JSON.stringify(value)};`)
    .join("\n");
}

export function enginePlugin(): Plugin {
  return {
    name: "evenbed-engine",
    resolveId: (id) => (id === ID ? `\0${ID}` : undefined),
    load(id) {
      if (id !== `\0${ID}`) return undefined;
      this.addWatchFile(ENGINE_FOLDER);
      return moduleText();
    },
    generateBundle() {
      for (const { url, bytes } of servedFiles()) {
        this.emitFile({ type: "asset", fileName: url.slice(1), source: bytes });
      }
    },
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const found = servedFiles().find(({ url }) => url === request.url?.split("?")[0]);
        if (found === undefined) {
          next();
          return;
        }
        response.setHeader("content-type", MIME[found.url.split(".").at(-1) ?? ""] ?? "application/octet-stream");
        response.end(found.bytes);
      });
    },
  };
}
