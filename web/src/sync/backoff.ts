/** How long to wait before asking again: doubling, with jitter, so that a crew's phones do not all ask at once. */
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 300_000;

/** `failures` in a row, 1 or more; `random` in [0, 1). At least half the step, at most the step. */
export function waitFromFailures(failures: number, random: number): number {
  const step = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - 1));
  return step * (0.5 + random / 2);
}
