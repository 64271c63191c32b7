/** Beside a signed copy: what changed since it was signed, who changed it and when, and whether the engine is a newer one. */
import { useMemo } from "preact/hooks";
import { rowOf } from "../../state";
import type { AnyFields } from "../../wire";
import { datedText } from "../../units";
import { reader, t } from "../../words";
import { recordName } from "../common/recordName";
import { whoText } from "../history/History";
import { useStory } from "../history/useStory";
import { fieldName, valueText } from "../history/values";
import { changesBetween, type Change } from "./changes";
import type { Content } from "./content";
import type { Signed } from "./Paper";

/** By the record's story, where it is known here; a record that no change names tells nobody. */
function Who({ change, since }: { change: Change; since: string }) {
  const story = useStory(change.kind, change.id);
  const steps = (story?.steps ?? []).filter(({ at, lines }) => Date.parse(at) > Date.parse(since) && (change.field === null || lines.some(({ field }) => field === change.field)));
  const step = steps[0];
  return step ? <span class="quiet small" data-testid="later-who">{whoText(step)} · {datedText(step.at, reader.value)}</span> : null;
}

function Values({ change }: { change: Change }) {
  const { kind, field, before, after } = change;
  if (field === null) return null;
  return (
    <span class="values">
      <span class="before">{valueText(kind, field, before)}</span>
      <span aria-hidden="true">{"\u2192"}</span>
      <span class="hidden-words">{t("history.became")}</span>
      <span class="after">{valueText(kind, field, after)}</span>
    </span>
  );
}

function whatText({ kind, id, field, before, after }: Change): string {
  const name = recordName(kind, id, rowOf(kind, id)?.fields ?? (field === null ? ((after ?? before) as AnyFields) : {}));
  return field === null ? name : t("said.at", { where: name, what: fieldName(kind, field) });
}

function Line({ change, since }: { change: Change; since: string }) {
  return (
    <li class="story-line" data-testid="later-change">
      <span class="label">{t(`record.later_${change.what}`)}: {whatText(change)}</span>
      <Values change={change} />
      <Who change={change} since={since} />
    </li>
  );
}

interface LaterProps {
  readonly copy: Content;
  readonly now: Content;
  readonly signed: Signed;
}

export function LaterThan({ copy, now, signed }: LaterProps) {
  const changes = useMemo(() => changesBetween(copy, now), [copy, now]);
  const isNewer = now.plan.engine.hash !== signed.engineHash;
  return (
    <section class="stack tight screen-only" data-testid="later">
      <h2>{t("record.later")}</h2>
      {changes.length === 0 && <p class="notice" data-testid="nothing-later">{t("record.nothing_later")}</p>}
      {isNewer && <p class="notice" data-testid="newer-engine">{t("record.newer_engine", { then: signed.engine, now: now.plan.engine.version })}</p>}
      <ul class="stack tight">{changes.map((change) => <Line key={`${change.kind}:${change.id}:${change.field ?? ""}`} change={change} since={signed.at} />)}</ul>
    </section>
  );
}
