/**
 * In the place of the library that makes identifiers: those of a run follow from its steps alone. The library keeps random
 * words and its latest moment from one run to the next, and by them two identifiers of one moment came in either order.
 */
let made = 0;

/** A run begins. */
export function countIdsAnew(): void {
  made = 0;
}

/** By the clock, then in the order in which they were made, on whichever phone. */
export function uuidv7(): string {
  made += 1;
  const [time, number] = [Date.now(), made].map((part) => part.toString(16).padStart(12, "0")) as [string, string];
  return `${time.slice(0, 8)}-${time.slice(8)}-7001-8001-${number}`;
}
