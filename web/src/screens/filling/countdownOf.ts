/** What is left of a time, or by how much it is over, in whole minutes and two figures of seconds. */

const SECOND_MS = 1000;

export interface Left {
  readonly minutes: number;
  readonly seconds: string;
}

/** Half a second before the end is nothing left; half a second after it nothing over. */
export function countdownOf(leftMs: number): Left {
  const all = Math.floor(Math.abs(leftMs) / SECOND_MS);
  return { minutes: Math.floor(all / 60), seconds: `${all % 60}`.padStart(2, "0") };
}
