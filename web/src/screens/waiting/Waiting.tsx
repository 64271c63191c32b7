/** The waiting: when the bed lay in place, how warm it has been, and when it can be walked on and tiled. */
import { Drawing } from "../../drawing/Drawing";
import { addPlacement, editPlacement, mayWrite, placementsIn, placementsOf, placeOf, type Row } from "../../state";
import { clockText, hoursText, momentText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { roomScene } from "../common/roomFigure";
import { withLayer } from "../common/layers";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { basisText, milestoneName, whenText } from "../common/readiness";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfHistory } from "../common/route";
import { saved } from "../common/saving";
import { useRoom, type RoomView } from "../common/useRoom";
import { ValueField } from "../common/ValueField";
import { Climate } from "./Climate";
import { Needs } from "./Needs";

const HOUR_MS = 3_600_000;

function lastPlaced(rows: readonly Row<"placement">[]): Row<"placement"> | null {
  const placed = rows.filter(({ fields }) => fields.placed_at);
  return [...placed].sort((a, b) => Date.parse(b.fields.placed_at ?? "") - Date.parse(a.fields.placed_at ?? ""))[0] ?? null;
}

function Placed({ room }: { room: RoomView }) {
  const rows = placementsOf(room.id).value;
  const last = lastPlaced(rows);
  const sections = room.plan?.sections ?? [];
  const section = [...sections].sort((a, b) => b.order - a.order)[0];
  const placedAt = (moment: Date) => {
    const placement = last ?? (section && placementsIn(room.id, section).at(-1));
    const fields = { placed_at: moment.toISOString() };
    void saved(placement ? editPlacement(placement.id, fields) : addPlacement(room.id, { ...(section ? placeOf(section) : { section: "" }), ...fields }));
  };
  return (
    <section class="stack tight">
      {last
        ? <p class="notice" data-testid="placed-at">{t("waiting.placed", { at: momentText(last.fields.placed_at ?? "", reader.value) })}</p>
        : mayWrite.value && <button type="button" class="button main wide" data-testid="placed-now" onClick={() => placedAt(new Date())}>{t("waiting.placed_now")}</button>}
      <ValueField
        name={`${room.id}:placed-ago`} label={t("waiting.placed_ago")} shown={last ? clockText(last.fields.placed_at ?? "", reader.value) : t("none_yet")}
        measure="number" note={t("waiting.placed_ago_more")} onValue={(hours) => placedAt(new Date(Date.now() - hours * HOUR_MS))}
      />
      {last && <Link to={pathOfHistory("placement", last.id)} class="button wide" testid="placement-history">{t("history.open")}</Link>}
    </section>
  );
}

function Milestones({ plan }: { plan: Plan }) {
  return (
    <div class="figures one" data-testid="milestones">
      {plan.readiness.map((row, index) => (
        <Figure key={row.milestone} label={milestoneName(row)} value={whenText(row)} note={row.forecast && row.at ? `${basisText(row)} ${t("waiting.foretold")}` : basisText(row)} plan={plan} path={`readiness[${index}]`} />
      ))}
    </div>
  );
}

function Age({ plan }: { plan: Plan }) {
  const first = plan.readiness[0];
  if (!first || plan.placed_at === null) return null;
  return <Figure label={t("waiting.age")} value={hoursText(first.equivalent_age, reader.value)} plan={plan} path="readiness[0].equivalent_age" />;
}

function WorkingTime({ plan }: { plan: Plan }) {
  const { working_time: working } = plan;
  const note = working.until ? t("waiting.use_until", { at: clockText(working.until, reader.value) }) : undefined;
  return <Figure label={t("waiting.working_time")} value={hoursText(working.hours, reader.value)} plan={plan} path="working_time" {...(note === undefined ? {} : { note })} />;
}

export function Waiting({ id }: { id: string }) {
  const room = useRoom(id);
  if (!room) return <Missing />;
  const { plan } = room;
  return (
    <RoomFrame room={room} step="waiting" drawing={<Drawing scene={withLayer(roomScene(room.fields), room.plan, "sections")} name="waiting" />}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {!plan && <NoPlan room={room} />}
        {plan && <Placed room={room} />}
        {plan && <Milestones plan={plan} />}
        {plan && <Age plan={plan} />}
        {plan && <Cautions cautions={cautionsAt(plan, "readiness", "working_time", "evaporation")} />}
        <Climate room={room} />
        {plan && <WorkingTime plan={plan} />}
        {plan && <Needs room={room} plan={plan} />}
      </div>
    </RoomFrame>
  );
}
