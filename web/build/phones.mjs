/**
 * Bundles the app's own code, for tests that drive it from outside, into one file for Node: `node build/phones.mjs <folder>`
 * writes main.js there, with the phones that the machine in tests/machine drives: storage and sync over a database in
 * memory. A second word names another folder in tests/ whose main.ts is bundled instead.
 */
import { build } from "vite";

const [folder, part = "machine"] = process.argv.slice(2);
if (folder === undefined) throw new Error("Say into which folder.");

const root = new URL("..", import.meta.url).pathname;
await build({
  configFile: false,
  logLevel: "warn",
  publicDir: false,
  root,
  resolve: part === "machine" ? { alias: { uuidv7: `${root}tests/machine/ids.ts` } } : {},
  ssr: { noExternal: true },
  build: { ssr: `tests/${part}/main.ts`, outDir: folder, emptyOutDir: false, target: "node20", minify: false },
});
