/** Filling: the sections in order, the way out last; what each takes, and when it was mixed and placed. */
import { useMemo } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { addPlacement, editPlacement, placementsOf, preferences, type Row } from "../../state";
import { clockText, volumeText } from "../../units";
import type { Plan, Section } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { roomScene } from "../common/roomFigure";
import { withLayer } from "../common/layers";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { sectionVolume } from "../common/ownExplanations";
import { cautionsAt } from "../common/plan";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { useRoom, type RoomView } from "../common/useRoom";

type Moment = "mixed_at" | "placed_at";

function MomentButton({ room, section, placement, moment }: { room: string; section: string; placement: Row<"placement"> | undefined; moment: Moment }) {
  const at = placement?.fields[moment];
  const now = () => {
    const fields = { [moment]: new Date().toISOString() };
    void saved(placement ? editPlacement(placement.id, fields) : addPlacement(room, { section, ...fields }));
  };
  const words = moment === "mixed_at" ? "mixed" : "placed";
  return (
    <button type="button" class="button" aria-pressed={Boolean(at)} data-testid={`${words}-${section}`} onClick={now}>
      {at ? t(`filling.${words}_at`, { at: clockText(at, reader.value) }) : t(`filling.${words}_now`)}
    </button>
  );
}

function SectionLine({ room, plan, section, index }: { room: RoomView; plan: Plan; section: Section; index: number }) {
  const placement = placementsOf(room.id).value.find(({ fields }) => fields.section === section.id);
  return (
    <li class="section-line" data-testid="section">
      <span class="order">{section.order}</span>
      <Figure label={t("filling.takes")} value={volumeText(section.volume, reader.value)} note={t("filling.batches", { batches: section.batches })} plan={plan} path={`sections[${index}].volume`} explanation={sectionVolume(section, plan)} />
      <div class="row even">
        <MomentButton room={room.id} section={section.id} placement={placement} moment="mixed_at" />
        <MomentButton room={room.id} section={section.id} placement={placement} moment="placed_at" />
      </div>
      {placement && <Link to={pathOfHistory("placement", placement.id)} class="button plain" label={t("history.of", { what: t("history.section", { section: section.order }) })} testid="placement-history">{t("history.open")}</Link>}
    </li>
  );
}

function FillingDrawing({ room }: { room: RoomView }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => ({ ...withLayer(roomScene(room.fields), room.plan, "sections"), wallLabels: [] }), [room.fields, room.plan, language, units]);
  return <Drawing scene={scene} name="filling" />;
}

export function Filling({ id }: { id: string }) {
  const room = useRoom(id);
  if (!room) return <Missing />;
  const { plan } = room;
  const sections = plan ? plan.sections.map((section, index) => ({ section, index })).sort((a, b) => a.section.order - b.section.order) : [];
  return (
    <RoomFrame room={room} step="filling" drawing={<FillingDrawing room={room} />}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {!plan && <NoPlan room={room} />}
        {plan && <p class="notice">{t("filling.how")}</p>}
        {plan && <Cautions cautions={cautionsAt(plan, "sections")} />}
        {plan && <ol class="sections-list">{sections.map(({ section, index }) => <SectionLine key={section.id} room={room} plan={plan} section={section} index={index} />)}</ol>}
        {plan && <Cautions cautions={cautionsAt(plan, "materials")} />}
      </div>
    </RoomFrame>
  );
}
