/** A record's story: who changed what, when, on which device, what it was and became; each earlier value one tap away. */
import { deletedIn, mayWrite, restoreRecord, rowOf, session } from "../../state";
import { momentText } from "../../units";
import type { Kind } from "../../wire";
import { reader, t } from "../../words";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { placeOfRecord, recordName } from "../common/recordName";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { mayPutBack, putBack } from "./restoring";
import { offeredBy, type StoryLine, type StoryStep } from "./story";
import { chainOf, useStory, type ToldStory } from "./useStory";
import { fieldName, valueText } from "./values";

interface RecordKey {
  readonly kind: Kind;
  readonly id: string;
}

type Who = Pick<StoryStep, "person" | "deviceName" | "deviceId" | "isUnsent"> & { readonly isFromFile?: boolean };

export function whoText({ person, deviceName, deviceId, isUnsent, isFromFile }: Who): string {
  if (isFromFile) return fromFileText(person ?? t("history.somebody"), deviceName);
  const here = isUnsent || deviceId === session.value.deviceId;
  const name = person ?? session.value.person ?? t("history.you");
  if (here) return t("history.who_here", { person: name });
  return deviceName ? t("history.who_device", { person: name, device: deviceName }) : name;
}

function fromFileText(person: string, device: string | null): string {
  return device ? t("history.from_file_device", { person, device }) : t("history.from_file", { person });
}

function PutBack({ record, line, story }: { record: RecordKey; line: StoryLine; story: ToldStory }) {
  const offered = offeredBy(line, story.now);
  if (!offered || !mayPutBack(record.kind, line, offered.value)) return null;
  const act = () => void saved(putBack(record.kind, record.id, line.field, offered.value));
  return (
    <button type="button" class="button wide" data-testid="put-back" onClick={act}>
      {t("history.put_back", { value: valueText(record.kind, line.field, offered.value) })}
    </button>
  );
}

function Values({ kind, line, isNew }: { kind: Kind; line: StoryLine; isNew: boolean }) {
  const after = valueText(kind, line.field, line.after);
  if (isNew) return <span class="after">{after}</span>;
  return (
    <>
      <span class="before">{valueText(kind, line.field, line.before)}</span>
      <span aria-hidden="true">{"\u2192"}</span>
      <span class="hidden-words">{t("history.became")}</span>
      <span class="after">{after}</span>
    </>
  );
}

function Line({ record, line, step, story }: { record: RecordKey; line: StoryLine; step: StoryStep; story: ToldStory }) {
  const isNew = step.what === "made" || step.what === "decided";
  return (
    <li class="story-line" data-testid="story-line">
      <span class="label">{fieldName(record.kind, line.field)}</span>
      <span class={line.isOverruled ? "values overruled" : "values"}><Values kind={record.kind} line={line} isNew={isNew} /></span>
      {line.isConcurrent && <span class="note">{t(line.isOverruled ? "history.overruled" : "history.concurrent")}</span>}
      {!isNew && <PutBack record={record} line={line} story={story} />}
    </li>
  );
}

function Step({ record, step, story }: { record: RecordKey; step: StoryStep; story: ToldStory }) {
  return (
    <li class="card story-step" data-testid="story-step">
      <p class="story-what">{t(`history.${step.what}`)}</p>
      <p data-testid="story-who">{whoText(step)}</p>
      {step.broughtBy && <p class="quiet small" data-testid="story-brought">{t("history.brought_by", step.broughtBy)}</p>}
      <p class="quiet small">{step.isUnsent ? t("history.unsent", { at: step.at }) : momentText(step.at, reader.value)}</p>
      <ul class="stack tight">{step.lines.map((line) => <Line key={line.field} record={record} line={line} step={step} story={story} />)}</ul>
    </li>
  );
}

function sourceText({ at, isFresh }: ToldStory): string | null {
  if (isFresh) return null;
  if (!session.value.joined) return t("history.not_joined");
  return at === null ? t("history.none_kept") : t("history.kept", { at });
}

function Source({ story }: { story: ToldStory }) {
  const text = sourceText(story);
  return text === null ? null : <p class="notice" role="status" data-testid="story-source">{text}</p>;
}

function Deleted({ kind, id }: RecordKey) {
  return (
    <>
      <p class="caution">{t("history.is_deleted")}</p>
      {mayWrite.value && <button type="button" class="button main wide" data-testid="bring-back" onClick={() => void saved(restoreRecord(kind, id))}>{t("deleted.restore")}</button>}
    </>
  );
}

function DeletedHere({ room }: { room: string }) {
  const rows = deletedIn(room);
  if (rows.length === 0) return null;
  return (
    <section class="stack tight">
      <h2>{t("history.deleted_here")}</h2>
      {rows.map((row) => <Link key={row.id} to={pathOfHistory(row.kind, row.id)} class="button wide" testid="deleted-here">{recordName(row.kind, row.id)}</Link>)}
    </section>
  );
}

export function History({ kind, id }: RecordKey) {
  const story = useStory(kind, id);
  const record = { kind, id: chainOf(kind, id).at(-1) ?? id };
  const row = rowOf(kind, record.id);
  if (!row) return <Missing />;
  const isDeleted = (row.fields as { deleted?: boolean | null }).deleted === true;
  return (
    <main class="page" data-testid="history">
      <div>
        <h1>{t("history.of", { what: recordName(kind, record.id) })}</h1>
        <p class="quiet">{placeOfRecord(kind, id)}</p>
      </div>
      {isDeleted && <Deleted kind={kind} id={record.id} />}
      {story ? <Source story={story} /> : <p class="notice" role="status">{t("history.asking")}</p>}
      {kind === "room" && <DeletedHere room={id} />}
      <ol class="story">{story?.steps.map((step) => <Step key={step.id} record={record} step={step} story={story} />)}</ol>
    </main>
  );
}
