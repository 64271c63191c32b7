/** What the office did not take: each with its reason and the value it held, so that nothing is lost in silence. */
import { dismissRefused, refused, roomOf, type Refused } from "../../state";
import { momentText } from "../../units";
import { reader, t, told } from "../../words";
import { saved } from "../common/saving";

function nameOf({ kind, record_id: id, fields }: Refused): string {
  const room = kind === "room" ? id : fields["room_id"];
  const name = typeof room === "string" ? roomOf(room)?.fields.name : undefined;
  return name ?? told("kind", kind, {}, kind);
}

function RefusedLine({ change }: { change: Refused }) {
  return (
    <li class="card refused" data-testid="refused">
      <h2>{nameOf(change)}</h2>
      <p>{told("refusal", change.reason, {}, change.message)}</p>
      <p class="quiet small">{momentText(change.at, reader.value)}</p>
      <dl class="inputs">
        {Object.entries(change.fields).map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{typeof value === "string" ? value : JSON.stringify(value)}</dd></div>)}
      </dl>
      <button type="button" class="button wide" data-testid="dismiss" onClick={() => void saved(dismissRefused(change.change_id))}>{t("review.seen")}</button>
    </li>
  );
}

export function Review() {
  return (
    <main class="page" data-testid="review">
      <h1>{t("review.title")}</h1>
      <p class="quiet">{refused.value.length === 0 ? t("review.none") : t("review.more")}</p>
      <ul class="cards">{refused.value.map((change) => <RefusedLine key={change.change_id} change={change} />)}</ul>
    </main>
  );
}
