/** Giving a field an earlier value again: an ordinary change, which the one undo takes back. */
import { correctReading, isForeman, mayWrite, restoreValue } from "../../state";
import type { Kind } from "../../wire";
import { isSame, type StoryLine } from "./story";
import { isKnownField } from "./values";

/** What a person may give an earlier value; what ties records together stays, and a reading is corrected, not edited. */
const FIXED: Readonly<Record<Kind, (field: string) => boolean>> = {
  job: (field) => field === "crew" && !isForeman.value,
  room: (field) => field === "job_id",
  reading: (field) => field !== "down",
  placement: (field) => field === "room_id",
  batch: (field) => field === "room_id",
  station: (field) => field === "room_id",
  rail_check: (field) => field === "room_id",
  entry: (field) => field === "room_id" || field === "what",
  climate: (field) => field === "room_id",
  photo: (field) => field !== "note",
  alternative: (field) => field === "room_id",
  gap: (field) => field === "room_id",
  height_line: (field) => field === "room_id",
  temperature_log: (field) => field !== "name",
  forecast_day: (field) => field === "job_id",
  sign_off: (field) => field !== "note",
  prices: () => !isForeman.value,
  supplies: () => !isForeman.value,
};

export function mayPutBack(kind: Kind, { field }: StoryLine, value: unknown): boolean {
  const isNamelessRecord = field === "name" && isSame(value, null);
  return mayWrite.value && isKnownField(kind, field) && !FIXED[kind](field) && !isNamelessRecord;
}

export async function putBack(kind: Kind, id: string, field: string, value: unknown): Promise<void> {
  if (kind !== "reading") await restoreValue(kind, id, field, value);
  else if (typeof value === "number") await correctReading(id, { down: value });
}
