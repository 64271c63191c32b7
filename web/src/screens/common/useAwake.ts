/** Keeps the screen awake while readings or rails are worked through, where the browser can. */
import { useEffect } from "preact/hooks";

export function useAwake(): void {
  useEffect(() => {
    let held: WakeLockSentinel | null = null;
    let over = false;
    const hold = () => {
      if (!("wakeLock" in navigator) || document.visibilityState !== "visible") return;
      navigator.wakeLock.request("screen").then(
        (lock) => { held = lock; if (over) void lock.release(); },
        () => { held = null; }, // low battery or not allowed: the screen dims as the phone's owner set it
      );
    };
    hold();
    document.addEventListener("visibilitychange", hold);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", hold);
      void held?.release();
    };
  }, []);
}
