/** Made by the build (`build/engine_plugin.ts`): where the browser's Python and the engine's files lie on our own origin. */
declare module "virtual:engine" {
  /** Folder of the browser's Python, with its closing slash. */
  export const pythonFolder: string;
  /** The engine's files as one JSON archive. */
  export const archiveUrl: string;
  /** What the browser's Python must know of itself; it loads no further packages. */
  export const lock: string;
}
