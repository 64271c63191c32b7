/** Tops kept side by side and compared; the one that holds says who decided it, and when. */
import { addAlternative, alternativesOf, chooseAlternative, decisionOf, deleteRecord, seesMoney, type Row } from "../../state";
import type { Bed, Top } from "../../wire";
import { reader, t } from "../../words";
import { saved } from "../common/saving";
import type { RoomView } from "../common/useRoom";
import { comparedOf, designedFrom, type Designed } from "./effects";
import { topName } from "./names";
import { LOWEST } from "./trial";
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

function Figures({ design }: { design: Designed | null }) {
  return (
    <dl>{design && comparedOf(design, seesMoney.value).map(({ id, label, value, write }) => (
      <div key={id}><dt>{label}</dt><dd data-testid={`compared-${id}`}>{value === null ? t("not_known") : write(value, reader.value)}</dd></div>
    ))}</dl>
  );
}

function Compared({ room, row, isChosen }: { room: string; row: Row<"alternative">; isChosen: boolean }) {
  const { status, design } = useBed(room, row.id, row.fields.top ?? null);
  return (
    <li class={isChosen ? "compared is-chosen" : "compared"} data-testid="alternative">
      <strong>{row.fields.name ?? ""}</strong>
      {status === "problems" && <p class="small warns">{t("alternative.no_bed")}</p>}
      <Figures design={design} />
      {isChosen ? <span class="chosen">{t("alternative.chosen")}</span> : <button type="button" class="button main" disabled={status !== "ready"} data-testid="choose-alternative" onClick={() => void saved(chooseAlternative(row.id))}>{t("alternative.choose")}</button>}
      <button type="button" class="button" data-testid="delete-alternative" onClick={() => void saved(deleteRecord("alternative", row.id))}>{t("alternative.delete")}</button>
    </li>
  );
}

/** The room's top where nobody decided it: it stands beside the others all the same. */
function Standing({ top, design }: { top: Top; design: Designed }) {
  return (
    <li class="compared is-chosen" data-testid="standing">
      <strong>{topName(top, design.bed)}</strong>
      <Figures design={design} />
      <span class="chosen">{t("alternative.standing")}</span>
    </li>
  );
}

/** The chosen one first, then the newest. */
function inOrder(rows: readonly Row<"alternative">[], decided: string | undefined): readonly Row<"alternative">[] {
  const isDecided = ({ id }: Row<"alternative">) => id === decided;
  return [...rows.filter(isDecided), ...rows.filter((row) => !isDecided(row)).reverse()];
}

export function Alternatives({ room }: { room: RoomView }) {
  const rows = alternativesOf(room.id).value;
  const decided = decisionOf(room.id)?.id;
  const top = room.fields["bed.top"] ?? LOWEST;
  const isBeside = rows.some(({ fields }) => JSON.stringify(fields.top) === JSON.stringify(top));
  if (rows.length === 0) return null;
  return (
    <section class="stack tight" data-testid="alternatives">
      <h3>{t("alternative.title")}</h3>
      <ul class="beside">
        {!isBeside && room.plan && <Standing top={top} design={designedFrom(room.plan)} />}
        {inOrder(rows, decided).map((row) => <Compared key={row.id} room={room.id} row={row} isChosen={row.id === decided} />)}
      </ul>
    </section>
  );
}
