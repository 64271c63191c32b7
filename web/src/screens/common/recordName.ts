/** What a record is called where it stands apart from its screen, and the way back to it. */
import { jobOf, roomOf, rowOf } from "../../state";
import { momentText } from "../../units";
import type { AnyFields, Kind, Point } from "../../wire";
import { reader, t, told } from "../../words";
import { pathOfRoom, type Step } from "./route";

function textIn(fields: AnyFields, field: string): string | undefined {
  const value = fields[field];
  return typeof value === "string" && value !== "" ? value : undefined;
}

/** The record's own name; `fields` where it is not on this phone (a change that was not taken). */
export function recordName(kind: Kind, id: string, fields: AnyFields = rowOf(kind, id)?.fields ?? {}): string {
  if (kind === "job" || kind === "room") return rowOf(kind, id)?.fields.name ?? textIn(fields, "name") ?? told("kind", kind, {}, kind);
  if (kind === "reading" && typeof fields["down"] === "number") return t("reading.title", { down: fields["down"] });
  if (kind === "alternative") return textIn(fields, "name") ?? t("kind.alternative");
  if (kind === "placement") return t("history.section", { section: textIn(fields, "section") ?? "" });
  if (kind === "station" || kind === "rail_check") return railName(kind, fields);
  const parts = [kind === "entry" ? entryName(fields) : told("kind", kind, {}, kind), momentIn(kind, fields), sectionIn(fields)];
  return parts.filter((part) => part !== undefined).join(" · ");
}

/** Where a record has its moment from; the rest say when they were taken. */
const MOMENT_OF: Partial<Record<Kind, string>> = {
  climate: "at", batch: "mixed_at", entry: "at", temperature_log: "start", forecast_day: "high_at", sign_off: "at",
};

function momentIn(kind: Kind, fields: AnyFields): string | undefined {
  const at = textIn(fields, MOMENT_OF[kind] ?? "taken_at");
  return at === undefined ? undefined : momentText(at, reader.value);
}

function sectionIn(fields: AnyFields): string | undefined {
  const section = textIn(fields, "section");
  return section === undefined ? undefined : t("history.section", { section });
}

function railName(kind: "station" | "rail_check", fields: AnyFields): string {
  const [rail, other, at] = [textIn(fields, "rail"), textIn(fields, "rail_to"), fields["at"]];
  if (rail === undefined) return t(`kind.${kind}`);
  if (kind === "station") return isPlace(at) ? t("name.station", { rail, x: at[0], y: at[1] }) : t("kind.station");
  return other === undefined ? t("name.rail_check", { rail }) : t("name.rail_check_across", { rail, other });
}

function isPlace(at: unknown): at is Point {
  return Array.isArray(at) && at.length === 2 && at.every((one) => typeof one === "number");
}

/** The line's own words where it has some. */
function entryName(fields: AnyFields): string {
  return textIn(fields, "text") ?? told("value", `entry_${textIn(fields, "what") ?? ""}`, {}, t("kind.entry"));
}

/** The room that a record lies in, if it lies in one. */
export function roomOfRecord(kind: Kind, id: string, fields: AnyFields = rowOf(kind, id)?.fields ?? {}): string | undefined {
  return kind === "room" ? id : textIn(fields, "room_id");
}

/** Job and room by name, the wider first; without what is not on this phone. */
export function placeOfRecord(kind: Kind, id: string, fields?: AnyFields): string {
  const room = roomOf(roomOfRecord(kind, id, fields) ?? "")?.fields;
  const job = jobOf(kind === "job" ? id : (room?.job_id ?? ""))?.fields;
  return [job?.name, room?.name].filter((name) => name).join(" › ");
}

/** A job or room that was deleted has no screen of its own: it stands in the settings, to be brought back. */
function isDeletedPlace(kind: Kind, id: string): boolean {
  return (kind === "job" || kind === "room") && rowOf(kind, id)?.fields.deleted === true;
}

/** The screen that shows the record. */
export function pathOfRecord(kind: Kind, id: string): string {
  const room = roomOfRecord(kind, id);
  if (isDeletedPlace(kind, id)) return "/settings";
  if (kind === "job") return `/job/${id}`;
  if (kind === "prices" || kind === "supplies") return "/prices";
  if (room === undefined) return "/";
  return pathOfRoom(room, stepOf(kind, id) ?? STEP_OF[kind] ?? null);
}

/** The step of a line of the day book, or of a reading, by what it tells of. */
function stepOf(kind: Kind, id: string): Step | null {
  if (kind === "reading") return rowOf(kind, id)?.fields.stage === "bed" ? "checking" : null;
  const what = kind === "entry" ? rowOf(kind, id)?.fields.what : undefined;
  if (what === "trued") return "rails";
  return what === "rubbed" || what === "filled_up" ? "checking" : null;
}

/** Where what lies in a room is worked on; the rest stands on the room's own screen. */
const STEP_OF: Partial<Record<Kind, Step>> = {
  reading: "levels", climate: "waiting", placement: "filling", batch: "filling", entry: "filling", station: "rails", rail_check: "rails",
  alternative: "bed", gap: "checking", height_line: "checking",
};
