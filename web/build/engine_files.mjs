/** The engine's Python files, byte for byte, by the path under which Python finds them. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

const SERVER = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "server");
export const ENGINE_FOLDER = join(SERVER, "evenbed", "engine");

/** @returns {Record<string, string>} path under the Python root → text, in the order of the paths */
export function engineFiles() {
  const paths = readdirSync(ENGINE_FOLDER, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".py"));
  const files = [join(SERVER, "evenbed", "__init__.py"), ...paths.map((path) => join(ENGINE_FOLDER, path))];
  return Object.fromEntries(files.sort().map((file) => [pythonPath(file), textOf(file)]));
}

/** @param {string} file */
function pythonPath(file) {
  return relative(SERVER, file).split(sep).join(posix.sep);
}

/**
 * Fails on bytes that are not UTF-8: they would change on their way through text.
 * @param {string} file
 */
function textOf(file) {
  return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file));
}

/** The archive that the phone loads: JSON text, and a short hash of it for its name. */
export function engineArchive() {
  const text = JSON.stringify(engineFiles());
  return { text, hash: createHash("sha256").update(text).digest("hex").slice(0, 16) };
}
