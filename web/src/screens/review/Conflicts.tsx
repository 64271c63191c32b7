/** Edits that met without knowing of each other: both values side by side, who and when each, and one tap decides. */
import { useEffect, useState } from "preact/hooks";
import { historyOf, keepStanding, mayWrite, openConflicts, takeOther, unsentOf, type Conflict, type History, type OpenConflict } from "../../state";
import { momentText } from "../../units";
import { reader, t } from "../../words";
import { Link } from "../common/Link";
import { pathOfRecord, placeOfRecord, recordName } from "../common/recordName";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { whoText } from "../history/History";
import { storyOf, type StoryStep } from "../history/story";
import { fieldName, valueText } from "../history/values";

interface Known {
  /** The step that set what stands. */
  readonly setter: StoryStep | undefined;
  readonly entries: History["entries"];
}

/** From the office, or from the story that is kept on this phone. */
async function knownOf({ kind, id, field }: OpenConflict): Promise<Known> {
  const [{ entries }, unsent] = await Promise.all([historyOf(kind, id), unsentOf(kind, id)]);
  const { steps } = storyOf([{ entries, unsent }]);
  return { entries, setter: steps.find(({ lines }) => lines.some((line) => line.field === field && !line.isOverruled)) };
}

function useKnown(conflict: OpenConflict): Known {
  const [known, setKnown] = useState<Known>({ setter: undefined, entries: [] });
  useEffect(() => {
    let isWanted = true;
    void knownOf(conflict).then((found) => { if (isWanted) setKnown(found); });
    return () => { isWanted = false; };
  }, [conflict.id, conflict.field, JSON.stringify(conflict.standing.value)]);
  return known;
}

interface SideProps {
  readonly title: string;
  readonly value: string;
  readonly who: string;
  readonly at: string | null;
  readonly act: string;
  readonly testid: string;
  readonly onChoose: () => void;
}

function Side({ title, value, who, at, act, testid, onChoose }: SideProps) {
  return (
    <div class="side" data-testid={`${testid}-side`}>
      <span class="label">{title}</span>
      <span class="number">{value}</span>
      <span class="small">{who}</span>
      <span class="quiet small">{at === null ? "" : momentText(at, reader.value)}</span>
      {mayWrite.value && <button type="button" class="button main" data-testid={testid} onClick={onChoose}>{act}</button>}
    </div>
  );
}

function Standing({ conflict, known: { setter } }: { conflict: OpenConflict; known: Known }) {
  const { kind, id, field, standing } = conflict;
  return (
    <Side
      title={t("conflict.stands")} value={valueText(kind, field, standing.value)} who={setter ? whoText(setter) : t("conflict.who_unknown")}
      at={setter?.at ?? null} act={t("conflict.keep")} testid="keep-standing" onChoose={() => void saved(keepStanding(kind, id, field))}
    />
  );
}

function Other({ conflict, other, known }: { conflict: OpenConflict; other: Conflict; known: Known }) {
  const { kind, id, field } = conflict;
  const deviceName = known.entries.find((entry) => entry.sequence === other.sequence)?.device_name ?? null;
  const who = { person: other.person, deviceId: other.device_id, deviceName, isUnsent: false };
  return (
    <Side
      title={t("conflict.other")} value={valueText(kind, field, other.value)} who={whoText(who)} at={other.at}
      act={t("conflict.take")} testid="take-other" onChoose={() => void saved(takeOther(kind, id, field, other))}
    />
  );
}

function ConflictCard({ conflict }: { conflict: OpenConflict }) {
  const { kind, id, field, others } = conflict;
  const known = useKnown(conflict);
  return (
    <li class="card conflict" data-testid="conflict">
      <p class="quiet small">{placeOfRecord(kind, id)}</p>
      <h2>{t("conflict.title", { field: fieldName(kind, field), what: recordName(kind, id) })}</h2>
      <div class="sides">
        <Standing conflict={conflict} known={known} />
        {others.map((other) => <Other key={other.sequence} conflict={conflict} other={other} known={known} />)}
      </div>
      <div class="row even">
        <Link to={pathOfRecord(kind, id)} class="button plain" testid="conflict-record">{t("conflict.open")}</Link>
        <Link to={pathOfHistory(kind, id)} class="button plain" testid="conflict-history">{t("history.open")}</Link>
      </div>
    </li>
  );
}

export function Conflicts() {
  const conflicts = openConflicts.value;
  return (
    <section class="stack">
      <h2>{t("conflict.heading")}</h2>
      <p class="quiet">{conflicts.length === 0 ? t("conflict.none") : t("conflict.more")}</p>
      <ul class="cards broad">{conflicts.map((conflict) => <ConflictCard key={`${conflict.id}:${conflict.field}`} conflict={conflict} />)}</ul>
    </section>
  );
}
