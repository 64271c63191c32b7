/**
 * The browser's standard library, made smaller: what an engine of pure arithmetic never loads is left out, and the rest
 * is stored unpacked, for then the whole travels smaller than if each file were packed alone.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { unzipSync, zipSync } from "fflate";

export const PYTHON = dirname(createRequire(import.meta.url).resolve("pyodide/package.json"));

/** Networks, processes, terminals, markup, mail, tests and debuggers: nothing that computes. */
const LEFT_OUT = new Set(
  `_pyrepl antigravity bdb cProfile cgi cmd code compileall configparser csv ctypes curses dbm difflib doctest email
  ensurepip filecmp ftplib getpass gettext html http idlelib imaplib ipaddress lib2to3 mailbox mailcap mimetypes modulefinder
  multiprocessing netrc nntplib optparse pdb pickletools pkgutil plistlib poplib profile pstats pty py_compile pyclbr pydoc
  pydoc_data quopri rlcompleter runpy sched shelve shlex smtplib socketserver sqlite3 symtable tabnanny test this timeit
  tkinter tomllib trace tracemalloc tty turtle turtledemo unittest uuid venv wave webbrowser wsgiref xml xmlrpc zipapp`.split(
    /\s+/,
  ),
);
/** Of the hundred text encodings, those that Python itself starts with or names in a zip need. */
const KEPT_ENCODINGS = /^encodings\/(__init__|aliases|ascii|latin_1|cp437|utf_8|utf_8_sig|idna|punycode|raw_unicode_escape|unicode_escape)\.py$/;

/** @param {string} path */
function isKept(path) {
  const top = (path.split("/")[0] ?? "").replace(/\.py$/, "");
  return !LEFT_OUT.has(top) && (top !== "encodings" || KEPT_ENCODINGS.test(path));
}

/** The smaller library as a zip; the same bytes at every build. */
export function pythonLibrary() {
  const files = unzipSync(readFileSync(join(PYTHON, "python_stdlib.zip")), { filter: ({ name }) => isKept(name) });
  return Buffer.from(zipSync(files, { level: 0, mtime: new Date(1980, 0, 2) }));
}
