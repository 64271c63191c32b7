/** The rows of the board: each room with what it waits for next, the earliest first. */
import { boardWaits, jobOf, jobs, placedRooms, roomsOf, type Row } from "../../state";
import { milestonesOf, nextOf, type Milestone } from "../waiting/standing";

/**
 * due: somebody should have looked by now · maybe: it may be ready · coming · asked: still being worked out · unknown: nothing
 * can be foretold · done: all let pass · bare: nothing placed.
 */
export type BoardGroup = "due" | "maybe" | "coming" | "asked" | "unknown" | "done" | "bare";
export const GROUPS: readonly BoardGroup[] = ["due", "maybe", "coming", "asked", "unknown", "done", "bare"];

export interface BoardRow {
  readonly room: Row<"room">;
  readonly job: Row<"job"> | undefined;
  readonly group: BoardGroup;
  readonly milestones: readonly Milestone[];
  /** The one to be looked at next; null where there is none. */
  readonly next: Milestone | null;
}

/** Of all jobs on this phone, or of one. Subscribes. */
export function boardRooms(job?: string): readonly Row<"room">[] {
  return job === undefined ? jobs.value.flatMap(({ id }) => roomsOf(id).value) : roomsOf(job).value;
}

/** `now` in ms. Subscribes. */
export function boardRow(room: Row<"room">, now: number): BoardRow {
  const job = jobOf(room.fields.job_id ?? "");
  const none = { room, job, milestones: [], next: null };
  if (!placedRooms.value.has(room.id)) return { ...none, group: "bare" };
  const kept = boardWaits.value.get(room.id);
  if (!kept?.answer) return { ...none, group: kept ? "unknown" : "asked" };
  const milestones = milestonesOf(room.id, kept.answer, now);
  const next = nextOf(milestones);
  return { room, job, group: groupOf(next), milestones, next };
}

function groupOf(next: Milestone | null): BoardGroup {
  if (next === null) return "done";
  if (next.state === "should_be_ready") return "due";
  if (next.state === "may_be_ready") return "maybe";
  return next.state === "waiting" ? "coming" : next.state === "never" ? "unknown" : "bare";
}

/** In the order of the groups; within one the earliest first, then by name. */
export function inOrder(rows: readonly BoardRow[]): readonly BoardRow[] {
  const at = ({ next }: BoardRow) => Date.parse(next?.likely ?? "") || Number.MAX_SAFE_INTEGER;
  const name = ({ job, room }: BoardRow) => `${job?.fields.name ?? ""} ${room.fields.name ?? ""}`;
  return [...rows].sort((a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || at(a) - at(b) || name(a).localeCompare(name(b)));
}
