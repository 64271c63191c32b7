/** What wants a person's eye: edits that met, and what the office did not take, each with its value and its reason. */
import { dismissRefused, refused, type Refused } from "../../state";
import { momentText } from "../../units";
import { reader, t, told } from "../../words";
import { placeOfRecord, recordName } from "../common/recordName";
import { saved } from "../common/saving";
import { fieldName, valueText } from "../history/values";
import { Conflicts } from "./Conflicts";

/** Only what a person can read: the record's place stands above, and ids say nothing. */
const PARENTS: ReadonlySet<string> = new Set(["job_id", "room_id"]);

function RefusedLine({ change }: { change: Refused }) {
  const { kind, record_id: id, fields } = change;
  const shown = Object.entries(fields).filter(([field]) => !PARENTS.has(field));
  return (
    <li class="card refused" data-testid="refused">
      <p class="quiet small">{placeOfRecord(kind, id, fields)}</p>
      <h2>{recordName(kind, id, fields)}</h2>
      <p>{told("refusal", change.reason, {}, change.message)}</p>
      <p class="quiet small">{momentText(change.at, reader.value)}</p>
      <dl class="inputs">
        {shown.map(([field, value]) => <div key={field}><dt>{fieldName(kind, field)}</dt><dd>{valueText(kind, field, value)}</dd></div>)}
      </dl>
      <button type="button" class="button wide" data-testid="dismiss" onClick={() => void saved(dismissRefused(change.change_id))}>{t("review.seen")}</button>
    </li>
  );
}

function NotTaken() {
  return (
    <section class="stack">
      <h2>{t("review.title")}</h2>
      <p class="quiet">{refused.value.length === 0 ? t("review.none") : t("review.more")}</p>
      <ul class="cards">{refused.value.map((change) => <RefusedLine key={change.change_id} change={change} />)}</ul>
    </section>
  );
}

export function Review() {
  return (
    <main class="page" data-testid="review">
      <h1>{t("review.heading")}</h1>
      <div class="stack wide-gaps">
        <Conflicts />
        <NotTaken />
      </div>
    </main>
  );
}
