/** The weather to come where a job is, asked of the office, which asks an open service; kept as records of this phone. */
import type { Answer, ForetoldDay, Row } from "../wire";
import { addForecast, type NewForecastDay } from "./handover";
import { port } from "./ports";
import { forecastOf } from "./records";

const FIELDS = ["low", "high", "low_at", "high_at", "humidity", "wind", "source"] as const;

/** How many days were foretold, and how many of them are news: those alone become records, in one step to undo. */
export async function fetchForecast(jobId: string): Promise<Answer<{ foretold: number; added: number }>> {
  await port("office").syncNow(); // the place may have been typed a moment ago
  const answer = await port("office").forecast(jobId);
  if (answer.outcome !== "done") return answer;
  const known = forecastOf(jobId).peek();
  const fresh = answer.days.filter((day) => !isKnown(day, known)).map(recordFrom);
  if (fresh.length > 0) await addForecast(jobId, fresh);
  return { outcome: "done", foretold: answer.days.length, added: fresh.length };
}

function recordFrom({ humidity, wind, ...day }: ForetoldDay): NewForecastDay {
  return { ...day, ...(humidity === null ? {} : { humidity }), ...(wind === null ? {} : { wind }) };
}

/** Whether the newest record of that day says the same already. */
function isKnown(day: ForetoldDay, known: readonly Row<"forecast_day">[]): boolean {
  const dayName = (at: string | null | undefined) => (at ?? "").slice(0, "2026-01-01".length);
  const newest = known.filter(({ fields }) => dayName(fields.high_at) === dayName(day.high_at)).at(-1);
  return newest !== undefined && FIELDS.every((name) => (newest.fields[name] ?? null) === day[name]);
}
