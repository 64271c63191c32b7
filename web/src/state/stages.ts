/** What a reading was taken of: the subfloor, or the finished bed on it. */
import type { Row, Stage } from "../wire";

/** The readings of a stage, with those of marks, which are of no floor. */
export function readingsAt(readings: readonly Row<"reading">[], stage: Stage): readonly Row<"reading">[] {
  return readings.filter(({ fields: { at, stage: own } }) => !at || (own ?? "subfloor") === stage);
}

/** How many readings were taken of a stage. */
export function countAt(readings: readonly Row<"reading">[], stage: Stage): number {
  return readings.filter(({ fields: { at, stage: own } }) => at && (own ?? "subfloor") === stage).length;
}
