/** Tops kept side by side and compared; the one that holds says who decided it, and when. */
import { addAlternative, alternativesOf, chooseAlternative, decisionOf, deleteRecord, seesMoney, type Row } from "../../state";
import type { Bed, Top } from "../../wire";
import { reader, t } from "../../words";
import { saved } from "../common/saving";
import { comparedOf } from "./effects";
import { topName } from "./names";
import { useBed } from "./useBed";

interface KeepBesideProps {
  readonly room: string;
  readonly top: Top;
  readonly bed: Bed | null;
  readonly disabled: boolean;
}

/** A top that stands there already is not kept twice. */
export function KeepBeside({ room, top, bed, disabled }: KeepBesideProps) {
  const isKept = alternativesOf(room).value.some(({ fields }) => JSON.stringify(fields.top) === JSON.stringify(top));
  const keep = () => void saved(addAlternative(room, { name: topName(top, bed), top }));
  return <button type="button" class="button" disabled={disabled || isKept} data-testid="keep-beside" onClick={keep}>{t(isKept ? "alternative.kept" : "alternative.keep")}</button>;
}

export function Decision({ room }: { room: string }) {
  const decision = decisionOf(room)?.fields;
  if (!decision?.chosen_at) return <p class="quiet small" data-testid="undecided">{t("decision.none")}</p>;
  const values = { person: decision.chosen_by ?? "", at: decision.chosen_at };
  return <p class="decided" data-testid="decision">{t(decision.chosen_by ? "decision.by" : "decision.at", values)}</p>;
}

function Compared({ room, row, isChosen }: { room: string; row: Row<"alternative">; isChosen: boolean }) {
  const { status, design } = useBed(room, row.id, row.fields.top ?? null);
  return (
    <li class={isChosen ? "compared is-chosen" : "compared"} data-testid="alternative">
      <strong>{row.fields.name ?? ""}</strong>
      {status === "problems" && <p class="small warns">{t("alternative.no_bed")}</p>}
      <dl>{design && comparedOf(design, seesMoney.value).map(({ id, label, value, write }) => (
        <div key={id}><dt>{label}</dt><dd data-testid={`compared-${id}`}>{value === null ? t("not_known") : write(value, reader.value)}</dd></div>
      ))}</dl>
      {isChosen ? <span class="chosen">{t("alternative.chosen")}</span> : <button type="button" class="button main" disabled={status !== "ready"} data-testid="choose-alternative" onClick={() => void saved(chooseAlternative(row.id))}>{t("alternative.choose")}</button>}
      <button type="button" class="button" data-testid="delete-alternative" onClick={() => void saved(deleteRecord("alternative", row.id))}>{t("alternative.delete")}</button>
    </li>
  );
}

export function Alternatives({ room }: { room: string }) {
  const rows = alternativesOf(room).value;
  const decided = decisionOf(room)?.id;
  if (rows.length === 0) return null;
  return (
    <section class="stack tight" data-testid="alternatives">
      <h3>{t("alternative.title")}</h3>
      <ul class="beside">{rows.map((row) => <Compared key={row.id} room={room} row={row} isChosen={row.id === decided} />)}</ul>
    </section>
  );
}
