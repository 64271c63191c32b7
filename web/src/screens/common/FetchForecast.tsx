/** Takes the days ahead into a job from the office's forecast, where it has one; where not, it says why, and days are typed. */
import { useState } from "preact/hooks";
import { fetchForecast, jobOf, mayWrite, session } from "../../state";
import { t } from "../../words";
import { Failure, useWish } from "../people/Outcome";
import { JobPlace } from "./JobPlace";

export function FetchForecast({ job }: { job: string }) {
  const wish = useWish();
  const [said, setSaid] = useState<string | null>(null);
  const row = jobOf(job);
  if (!row || !session.value.joined || !mayWrite.value) return null;
  const hasPlace = row.fields.latitude != null && row.fields.longitude != null;
  const take = async () => {
    setSaid(null);
    const answer = await wish.ask(() => fetchForecast(job));
    if (answer.outcome === "done") setSaid(t(answer.added === 0 ? "weather.nothing_new" : "weather.taken", { days: answer.added }));
  };
  return (
    <div class="stack tight" data-testid="fetch-forecast">
      {!hasPlace && <JobPlace job={row} />}
      <button type="button" class="button wide" data-testid="take-forecast" disabled={!hasPlace || wish.isAsking} onClick={() => void take()}>{t(wish.isAsking ? "join.asking" : "weather.take")}</button>
      {said !== null && <p class="notice" role="status" data-testid="forecast-said">{said}</p>}
      <Failure wish={wish} />
    </div>
  );
}
