/** Where on earth a job is, typed as two numbers or taken from this phone: the weather to come is asked for there. */
import { useState } from "preact/hooks";
import { editJob, type Row } from "../../state";
import { numberText } from "../../units";
import { reader, t } from "../../words";
import { placeOnEarth, type PlaceOnEarth } from "./onEarth";
import { saved } from "./saving";
import { TextField, typedIn } from "./TextField";

const PATIENCE_MS = 15_000;

function here(): Promise<PlaceOnEarth | null> {
  return new Promise((resolve) => {
    if (!("geolocation" in navigator)) resolve(null);
    else navigator.geolocation.getCurrentPosition(({ coords: { latitude, longitude } }) => resolve({ latitude, longitude }), () => resolve(null), { timeout: PATIENCE_MS });
  });
}

function told({ latitude, longitude }: Row<"job">["fields"]): string {
  const { language } = reader.value;
  const both = [latitude, longitude].map((degrees) => (degrees == null ? "" : numberText(degrees, 4, language)));
  return both.every((text) => text !== "") ? both.join(language === "es" ? "; " : ", ") : "";
}

export function JobPlace({ job }: { job: Row<"job"> }) {
  const draft = `job-on-earth:${job.id}`;
  const [isLost, setLost] = useState(false);
  const typed = typedIn(draft, told(job.fields));
  const place = placeOnEarth(typed);
  const keep = (found: PlaceOnEarth) => saved(editJob(job.id, { latitude: rounded(found.latitude), longitude: rounded(found.longitude) }, { draft }));
  const take = async () => {
    const found = await here();
    setLost(found === null);
    if (found) await keep(found);
  };
  return (
    <div class="stack tight" data-testid="job-place-on-earth">
      <TextField label={t("weather.place")} draft={draft} testid="job-on-earth" otherwise={told(job.fields)} />
      <p class="quiet small">{t("weather.place_more")}</p>
      {typed.trim() !== "" && place === null && <p class="caution" role="alert">{t("weather.place_odd")}</p>}
      <div class="row even">
        <button type="button" class="button" data-testid="keep-on-earth" disabled={place === null} onClick={() => { if (place) void keep(place); }}>{t("weather.keep_place")}</button>
        <button type="button" class="button" data-testid="here-on-earth" onClick={() => void take()}>{t("weather.here")}</button>
      </div>
      {isLost && <p class="caution" role="alert">{t("weather.not_here")}</p>}
    </div>
  );
}

const KEPT_DIGITS = 1e4; // some ten metres

function rounded(degrees: number): number {
  return Math.round(degrees * KEPT_DIGITS) / KEPT_DIGITS;
}
