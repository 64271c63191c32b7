/** The dates of rooms as one file for a calendar program: made by the engine on this phone, no network takes part. */
import type { CalendarAnswer, CalendarDate, CalendarQuestion, WaitingAnswer } from "../wire";
import { askEngine } from "./asking";
import { documentFromRoom } from "./document";
import { jobOf, roomOf } from "./records";
import { datesOfRoom, type Telling } from "./roomDates";

/** nothing: no room among them waits for anything, or nothing of it can be foretold. */
export type CalendarMaking = { readonly outcome: "made"; readonly text: string } | { readonly outcome: "nothing" | "failed" };

const SEQUENCES_FROM = Date.UTC(2020, 0, 1);

/** Grows by one a second: what is made later stands before what was made earlier. */
export function sequenceAt(ms: number): number {
  return Math.max(0, Math.floor((ms - SEQUENCES_FROM) / 1000));
}

/** The calendar of these rooms, called `name`. Rooms that cannot be read have no dates. */
export async function calendarOfRooms(rooms: readonly string[], name: string, telling: Telling): Promise<CalendarMaking> {
  const at = new Date();
  const dates: CalendarDate[] = [];
  for (const room of rooms) {
    const found = await datesIn(room, telling, at);
    if (found === "failed") return { outcome: "failed" };
    dates.push(...found);
  }
  if (dates.length === 0) return { outcome: "nothing" };
  const asked: CalendarQuestion = { name, made_at: at.toISOString(), dates };
  const answer = await askEngine<CalendarAnswer>("calendar", "calendar", asked);
  return answer.outcome === "answered" ? { outcome: "made", text: answer.answer.text } : { outcome: "failed" };
}

async function datesIn(roomId: string, telling: Telling, at: Date): Promise<readonly CalendarDate[] | "failed"> {
  const [document, room] = [documentFromRoom(roomId), roomOf(roomId)?.fields];
  if (document === null || !room) return [];
  const answer = await askEngine<WaitingAnswer>("waiting", `dates:${roomId}`, { document, now: at.toISOString() });
  if (answer.outcome === "problems") return [];
  if (answer.outcome !== "answered") return "failed";
  const job = jobOf(room.job_id ?? "")?.fields;
  const names = { job: job?.name ?? "", room: room.name ?? "", place: job?.place ?? "" };
  return datesOfRoom(roomId, names, answer.answer, telling, { sequence: sequenceAt(at.getTime()), changedAt: at.toISOString() });
}
