/** What belongs to this phone and its person: language, units, light, the office, what is stored, what was deleted. */
import { deletedRows, leave, preferences, restoreRecord, saveLine, session, setPreference, storageState, syncNow } from "../../state";
import { numberText } from "../../units";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { Languages } from "../common/Languages";
import { Link } from "../common/Link";
import { saved } from "../common/saving";
import { Join } from "./Join";

function Looks() {
  const { units, theme } = preferences.value;
  return (
    <section class="stack">
      <Languages />
      <Choice
        label={t("units.label")} name="units" value={units} onChoose={(value) => setPreference("units", value)}
        options={[{ value: "imperial", label: t("units.imperial") }, { value: "metric", label: t("units.metric") }]}
      />
      <Choice
        label={t("theme.label")} name="theme" value={theme} onChoose={(value) => setPreference("theme", value)}
        options={[{ value: "light", label: t("theme.light") }, { value: "dark", label: t("theme.dark") }, { value: "sun", label: t("theme.sun") }]}
      />
    </section>
  );
}

function Office() {
  const { joined, person, mustJoinAgain } = session.value;
  if (!joined || mustJoinAgain) return <Join again={mustJoinAgain} />;
  return (
    <section class="stack tight">
      <h2>{t("office.title")}</h2>
      <p data-testid="joined">{t("office.joined", { person: person ?? "" })}</p>
      <button type="button" class="button wide" data-testid="send-now" onClick={() => void syncNow()}>{t("office.send", { waiting: saveLine.value.waiting })}</button>
      <button type="button" class="button danger wide" data-testid="leave" onClick={() => void leave()}>{t("office.leave")}</button>
      <p class="quiet small">{t("office.leave_more")}</p>
    </section>
  );
}

const MEGABYTE = 1_000_000;

function Stored() {
  const { persisted, usedBytes } = storageState.value;
  return (
    <section class="stack tight">
      <h2>{t("stored.title")}</h2>
      <p>{persisted === true ? t("stored.kept") : t("stored.may_go")}</p>
      {usedBytes !== null && <p class="quiet">{t("stored.used", { megabytes: numberText(usedBytes / MEGABYTE, 1, reader.value.language) })}</p>}
    </section>
  );
}

function Deleted() {
  const rows = deletedRows.value;
  if (rows.length === 0) return null;
  return (
    <section class="stack tight">
      <h2>{t("deleted.title")}</h2>
      <ul class="lines">
        {rows.map(({ kind, id, fields }) => (
          <li key={id} class="line">
            <span>{fields.name}</span>
            <button type="button" class="button" data-testid="restore" onClick={() => void saved(restoreRecord(kind, id))}>{t("deleted.restore")}</button>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function Settings() {
  return (
    <main class="page narrow" data-testid="settings">
      <h1>{t("settings.title")}</h1>
      <div class="stack wide-gaps">
        <Looks />
        <Office />
        {saveLine.value.refused > 0 && <Link to="/review" class="button wide" testid="to-review">{t("review.open", { count: saveLine.value.refused })}</Link>}
        <Stored />
        <Deleted />
      </div>
    </main>
  );
}
