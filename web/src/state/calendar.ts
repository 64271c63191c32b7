/** The secret address at which a calendar program reads this person's dates: the office makes and ends it. */
import { signal } from "@preact/signals";
import type { Answer } from "../wire";
import { port } from "./ports";

export interface CalendarStanding {
  /** Since when there is an address, ISO 8601; null where there is none. */
  readonly madeAt: string | null;
}

/** As the office last told it; null before it did. */
export const calendarStanding = signal<CalendarStanding | null>(null);

export async function loadCalendar(): Promise<Answer> {
  const answer = await port("office").calendar();
  if (answer.outcome === "done") calendarStanding.value = { madeAt: answer.madeAt };
  return answer;
}

/** A fresh address, told this once; one made before is dead from now on. `path` stands behind the office's own address. */
export async function makeCalendar(language: "en" | "es", zone: string): Promise<Answer<{ path: string }>> {
  const answer = await port("office").makeCalendar(language, zone);
  if (answer.outcome === "done") calendarStanding.value = { madeAt: answer.madeAt };
  return answer;
}

export async function revokeCalendar(): Promise<Answer> {
  const answer = await port("office").revokeCalendar();
  if (answer.outcome === "done") calendarStanding.value = { madeAt: null };
  return answer;
}
