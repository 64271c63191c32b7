import { defineConfig } from "vite";
import { enginePlugin } from "./build/engine_plugin";

const SERVICE = "http://127.0.0.1:8765";

export default defineConfig({
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    target: "es2022", assetsInlineLimit: 0, modulePreload: { polyfill: false },
    rollupOptions: { input: ["index.html", "rescue.html"], output: { manualChunks: fileOf } },
  },
  worker: { format: "es", plugins: () => [enginePluginForWorker()] },
  plugins: [enginePlugin()],
  server: { proxy: { "/api": SERVICE } },
});

/** The worker's own build only needs the names; the page's build puts the files in place. */
function enginePluginForWorker() {
  const { generateBundle: _once, configureServer: _page, ...names } = enginePlugin();
  return names;
}

/** What changes seldom, and what is only words, stand in files of their own: an update fetches what changed. */
function fileOf(id: string): string | undefined {
  if (/node_modules\/(dexie|preact|@preact|uuidv7)\//.test(id)) return "libraries";
  return /\/src\/words\/e[ns]\//.test(id) ? "words" : undefined;
}
