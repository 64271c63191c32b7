/** Edges with nothing beside them: where work would stop now, and doorways, each with its form. */
import { addEntry, deleteRecord, entriesOf, mayWrite, type Row } from "../../state";
import { lengthText } from "../../units";
import type { OpenEdge, Plan } from "../../wire";
import { reader, t } from "../../words";
import type { FillingNow } from "../common/filled";
import { Cautions } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { saved } from "../common/saving";

function EdgeFacts({ edge }: { edge: OpenEdge }) {
  return <span class="edge-facts">{lengthText(edge.length, reader.value)} · {t("filling.form_height", { low: edge.lowest, high: edge.highest })}</span>;
}

function whatToDo({ kind }: OpenEdge): string {
  if (kind === "joint") return t("edge.joint");
  return t(kind === "rail" ? "edge.rail" : "edge.cut");
}

function BestStop({ best, filling }: { best: NonNullable<NonNullable<FillingNow["clock"]>["best_stop"]>; filling: FillingNow }) {
  const order = filling.sections.find(({ section }) => section.id === best.after)?.section.order;
  if (order === undefined) return <p class="notice" data-testid="best-stop">{t("filling.best_now")}</p>;
  return <p class="notice" data-testid="best-stop">{best.at === null ? t("filling.best_after", { section: `${order}` }) : t("filling.best_after_at", { section: `${order}`, at: best.at })}</p>;
}

/** What a stop at this moment would leave to cut back and key. */
export function StopHere({ filling }: { filling: FillingNow }) {
  const edges = filling.clock?.stop_edges ?? [];
  const best = filling.clock?.best_stop ?? null;
  if (edges.length === 0 && best === null) return null;
  return (
    <section class="stack tight" data-testid="stop-here">
      <h3>{t("filling.stop_title")}</h3>
      {best && <BestStop best={best} filling={filling} />}
      <ul class="places">
        {edges.map((edge) => <li key={edge.id} class="place-line" data-testid="stop-edge" data-kind={edge.kind}><strong>{whatToDo(edge)}</strong><span /><EdgeFacts edge={edge} /></li>)}
      </ul>
      {filling.clock && <Cautions cautions={cautionsAt(filling.clock, "stop_edges")} />}
    </section>
  );
}

function formAt(entries: readonly Row<"entry">[], edge: OpenEdge): Row<"entry"> | undefined {
  return entries.filter(({ fields }) => fields.what === "form" && fields.code === edge.id).at(-1);
}

function FormLine({ room, edge, form }: { room: string; edge: OpenEdge; form: Row<"entry"> | undefined }) {
  const tick = () => void saved(form ? deleteRecord("entry", form.id) : addEntry(room, { what: "form", code: edge.id }));
  return (
    <li class="line" data-testid="form-edge">
      <span class="stack tight"><strong>{t("edge.doorway", { door: edge.opening ?? edge.id })}</strong><EdgeFacts edge={edge} /></span>
      {mayWrite.value
        ? <button type="button" class="button member" aria-pressed={form !== undefined} data-testid={`form-${edge.id}`} onClick={tick}>{t(form ? "filling.form_is_set" : "filling.form_set")}</button>
        : <span>{form ? t("filling.form_is_set") : t("none_yet")}</span>}
    </li>
  );
}

/** Doorways get a form at bed height before the mortar comes. */
export function Forms({ room, plan }: { room: string; plan: Plan }) {
  const entries = entriesOf(room).value;
  if (plan.edges.length === 0) return null;
  return (
    <section class="stack tight">
      <h3>{t("filling.forms_title")}</h3>
      <p class="quiet small">{t("filling.forms_more")}</p>
      <ul class="lines">{plan.edges.map((edge) => <FormLine key={edge.id} room={room} edge={edge} form={formAt(entries, edge)} />)}</ul>
    </section>
  );
}

