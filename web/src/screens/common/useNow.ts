/** The phone's own clock, told anew every second to the component that asks, ms. */
import { useEffect, useState } from "preact/hooks";

export function useNow(everyMs = 1000): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const ticking = setInterval(() => setNow(Date.now()), everyMs);
    return () => clearInterval(ticking);
  }, [everyMs]);
  return now;
}
