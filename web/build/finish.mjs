/**
 * After the page's build: the service worker with the list of the app's files, then .br and .gz beside what shrinks.
 * Another folder than web/dist may be given.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, posix, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { build } from "vite";

const WEB = join(dirname(fileURLToPath(import.meta.url)), "..");
const DIST = resolve(process.argv[2] ?? join(WEB, "dist"));
const PACKED = join(WEB, "node_modules", ".cache", "evenbed-packed");
const WORKER = "service-worker.js";
/** Files whose compressed form must save at least this share to be worth keeping. */
const LEAST_SAVING = 0.05;

/** @returns {string[]} every file in dist, as an address without its first slash, in order */
function distFiles() {
  const found = readdirSync(DIST, { recursive: true, encoding: "utf8" });
  const files = found.filter((path) => statSync(join(DIST, path)).isFile());
  return files.map((path) => relative(DIST, join(DIST, path)).split(sep).join(posix.sep)).sort();
}

/**
 * Names under assets/ change with their content; the others need a revision.
 * @param {string} file
 */
function precacheEntry(file) {
  const named = file.startsWith("assets/");
  const hash = createHash("sha256").update(readFileSync(join(DIST, file)));
  return { url: `/${file}`, revision: named ? null : hash.digest("hex").slice(0, 16) };
}

async function buildServiceWorker() {
  const files = distFiles().filter((file) => file !== WORKER && !/\.(br|gz)$/.test(file));
  await build({
    root: WEB,
    configFile: false,
    logLevel: "warn",
    publicDir: false,
    define: { APP_FILES: JSON.stringify(files.map(precacheEntry)), "process.env.NODE_ENV": '"production"' },
    build: {
      target: "es2022",
      outDir: DIST,
      emptyOutDir: false,
      rollupOptions: {
        input: join(WEB, "src", "service-worker", "service-worker.ts"),
        output: { format: "iife", entryFileNames: WORKER },
      },
    },
  });
}

/**
 * The best packing takes half a minute for Python's machine code, which seldom changes: it is kept by content.
 * @param {Buffer} bytes
 */
function brotli(bytes) {
  const kept = join(PACKED, `${createHash("sha256").update(bytes).digest("hex")}.br`);
  if (existsSync(kept)) return readFileSync(kept);
  const params = { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length };
  const packed = brotliCompressSync(bytes, { params });
  mkdirSync(PACKED, { recursive: true });
  writeFileSync(kept, packed);
  return packed;
}

/** @param {string} file */
function compress(file) {
  const bytes = readFileSync(join(DIST, file));
  const packed = { br: brotli(bytes), gz: gzipSync(bytes, { level: 9 }) };
  for (const [ending, smaller] of Object.entries(packed)) {
    if (smaller.length < bytes.length * (1 - LEAST_SAVING)) writeFileSync(join(DIST, `${file}.${ending}`), smaller);
  }
  return { file, raw: bytes.length, br: Math.min(packed.br.length, bytes.length) };
}

/** @param {ReturnType<typeof compress>[]} sizes */
function printSizes(sizes) {
  for (const { file, raw, br } of sizes) console.log(`${kib(raw)}  ${kib(br)}  ${file}`);
  const total = (/** @type {"raw" | "br"} */ key) => sizes.reduce((sum, size) => sum + size[key], 0);
  console.log(`${kib(total("raw"))}  ${kib(total("br"))}  in all: KiB as it is, KiB as it travels`);
}

/** @param {number} bytes */
function kib(bytes) {
  return (bytes / 1024).toFixed(1).padStart(9);
}

await buildServiceWorker();
printSizes(distFiles().filter((file) => !/\.(br|gz)$/.test(file)).map(compress));
