/** Which way something lies on the drawing: an arrow for each eighth of the compass, as the page shows it. */
import type { Place } from "../../../drawing/camera";

const ARROWS = ["\u2192", "\u2197", "\u2191", "\u2196", "\u2190", "\u2199", "\u2193", "\u2198"] as const;

/** From one place towards another; empty where they are the same. */
export function arrowTo([x, y]: Place, [tx, ty]: Place): string {
  if (x === tx && y === ty) return "";
  const eighths = Math.round((Math.atan2(ty - y, tx - x) * 4) / Math.PI);
  return ARROWS[(eighths + 8) % 8] ?? "";
}

/** Whether the second place comes first as one reads the drawing: further left, or further up where neither is. */
export function isTurned([x, y]: Place, [tx, ty]: Place): boolean {
  return Math.abs(tx - x) > Math.abs(ty - y) * 0.1 ? tx < x : ty > y;
}
