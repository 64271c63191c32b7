import { Bridge, type EngineState } from "./bridge";

/** The bridge to a real worker in this browser. */
export function startBridge(onState: (state: EngineState) => void): Bridge {
  const makeWorker = () =>
    new Worker(new URL("../engine-worker/worker.ts", import.meta.url), { type: "module", name: "engine" });
  const bridge = new Bridge(makeWorker, onState);
  bridge.wake();
  return bridge;
}

export { Bridge, EngineBroke, type EngineState, type WorkerLike } from "./bridge";
