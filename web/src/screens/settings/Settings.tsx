/** What belongs to this phone and its person: language, units, light, the office, what is stored, what was deleted. */
import { deletedRows, mayWrite, openConflicts, preferences, restoreRecord, saveLine, seesMoney, session, setPreference } from "../../state";
import { t } from "../../words";
import { Choice } from "../common/Choice";
import { Languages } from "../common/Languages";
import { Link } from "../common/Link";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { Calendar } from "./Calendar";
import { Office } from "./Office";
import { Stored } from "./Stored";

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

function Deleted() {
  const rows = deletedRows.value;
  if (rows.length === 0) return null;
  return (
    <section class="stack tight">
      <h2>{t("deleted.title")}</h2>
      <ul class="lines">
        {rows.map(({ kind, id, fields }) => (
          <li key={id} class="line tall">
            <span>{fields.name}</span>
            <Link to={pathOfHistory(kind, id)} class="button" label={t("history.of", { what: fields.name ?? "" })} testid="deleted-history">{t("history.open")}</Link>
            {mayWrite.value && <button type="button" class="button" data-testid="restore" onClick={() => void saved(restoreRecord(kind, id))}>{t("deleted.restore")}</button>}
          </li>
        ))}
      </ul>
    </section>
  );
}

function ToReview() {
  const [refused, open] = [saveLine.value.refused, openConflicts.value.length];
  if (refused + open === 0) return null;
  return <Link to="/review" class="button wide" testid="to-review">{t("review.open", { count: refused + open })}</Link>;
}

export function Settings() {
  const isOfficeFirst = session.value.mustJoinAgain;
  return (
    <main class="page narrow" data-testid="settings">
      <h1>{t("settings.title")}</h1>
      <div class="stack wide-gaps">
        {isOfficeFirst && <Office />}
        <Looks />
        {!isOfficeFirst && <Office />}
        {session.value.joined && !isOfficeFirst && <Calendar />}
        <ToReview />
        <Link to="/prices" class="button wide" testid="to-prices">{t(seesMoney.value ? "prices.title" : "supplies.title")}</Link>
        <Stored />
        <Deleted />
      </div>
    </main>
  );
}
