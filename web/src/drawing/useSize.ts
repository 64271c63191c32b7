/** The size of a box on the screen, followed as it changes. */
import type { RefObject } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Window } from "./camera";

const AT_FIRST: Window = { width: 320, height: 240 };

export function useSize(): readonly [RefObject<HTMLDivElement | null>, Window] {
  const box = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<Window>(AT_FIRST);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    const measure = () => setSize({ width: element.clientWidth || AT_FIRST.width, height: element.clientHeight || AT_FIRST.height });
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(element);
    return () => watcher.disconnect();
  }, []);
  return [box, size];
}
