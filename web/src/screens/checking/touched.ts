/** What was said to be done at a place of the bed, from the records at once: the plan that counts it comes a moment later. */
import { distance, type Place } from "../../drawing/camera";
import type { Row } from "../../state";
import type { FlatnessWork } from "../../wire";

const ONE_PLACE = 1; // mm
const TELLS = 50; // mm: a reading so near tells how the place is now (common practice, no source)
const WHATS = { rub: "rubbed", fill: "filled_up" } as const;

function isNear(at: Place | null | undefined, place: Place, reach: number): boolean {
  return at !== null && at !== undefined && distance(at, place) <= reach;
}

/** When the work was last said to be done, where its place was not read since; null else. ISO 8601. */
export function touchedAt({ at, way }: Pick<FlatnessWork, "at" | "way">, entries: readonly Row<"entry">[], readings: readonly Row<"reading">[]): string | null {
  const told = entries.filter(({ fields }) => fields.what === WHATS[way] && isNear(fields.place, at, ONE_PLACE)).map(({ fields }) => fields.at ?? "").sort();
  const last = told.at(-1);
  if (last === undefined || last === "") return null;
  const isRead = readings.some(({ fields }) => fields.stage === "bed" && isNear(fields.at, at, TELLS) && Date.parse(fields.taken_at ?? "") > Date.parse(last));
  return isRead ? null : last;
}
