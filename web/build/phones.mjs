/**
 * Bundles the phones that the machine in tests/machine drives into one file for Node: `node build/phones.mjs <folder>`
 * writes main.js there. They are the app's own storage and sync, over a database in memory.
 */
import { build } from "vite";

const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error("Say into which folder.");

await build({
  configFile: false,
  logLevel: "warn",
  publicDir: false,
  root: new URL("..", import.meta.url).pathname,
  ssr: { noExternal: true },
  build: { ssr: "tests/machine/main.ts", outDir: folder, emptyOutDir: false, target: "node20", minify: false },
});
