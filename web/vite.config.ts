import { defineConfig } from "vite";
import { enginePlugin } from "./build/engine_plugin";

const SERVICE = "http://127.0.0.1:8765";

export default defineConfig({
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: { target: "es2022", assetsInlineLimit: 0, modulePreload: { polyfill: false }, rollupOptions: { input: ["index.html", "rescue.html"] } },
  worker: { format: "es", plugins: () => [enginePluginForWorker()] },
  plugins: [enginePlugin()],
  server: { proxy: { "/api": SERVICE } },
});

/** The worker's own build only needs the names; the page's build puts the files in place. */
function enginePluginForWorker() {
  const { generateBundle: _once, configureServer: _page, ...names } = enginePlugin();
  return names;
}
