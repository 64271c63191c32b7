/** A new job: its name, where it is, and how this person reads it. */
import { clearDraft, createJob, preferences, setPreference } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Languages } from "../common/Languages";
import { go } from "../common/route";
import { saved } from "../common/saving";
import { TextField, typedIn } from "../common/TextField";

const NAME = "new-job:name";
const PLACE = "new-job:place";

async function begin(): Promise<void> {
  let made = "";
  const fields = { name: typedIn(NAME).trim(), place: typedIn(PLACE).trim(), units: preferences.value.units };
  const isSaved = await saved(createJob(fields, { draft: NAME }).then((id) => { made = id; }));
  if (!isSaved) return;
  await saved(clearDraft(PLACE));
  go(`/job/${made}`);
}

export function NewJob() {
  const { units } = preferences.value;
  const name = typedIn(NAME).trim();
  return (
    <main class="page narrow">
      <h1>{t("jobs.new")}</h1>
      <form class="stack" onSubmit={(event) => { event.preventDefault(); if (name) void begin(); }}>
        <TextField label={t("job.name")} draft={NAME} testid="job-name" />
        <TextField label={t("job.place")} draft={PLACE} testid="job-place" />
        <Choice
          label={t("units.label")} name="units" value={units} onChoose={(value) => setPreference("units", value)}
          options={[{ value: "imperial", label: t("units.imperial") }, { value: "metric", label: t("units.metric") }]}
        />
        <Languages />
        <button type="submit" class="button main wide" disabled={!name} data-testid="begin-job">{t("job.begin")}</button>
      </form>
    </main>
  );
}
