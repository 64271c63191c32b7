/** The finished bed checked: how flat, how level, what to rub down and fill up, and whether it keeps the limits for its tile. */
import { useState } from "preact/hooks";
import { countAt, mayWrite } from "../../state";
import type { Caution, Plan } from "../../wire";
import { t } from "../../words";
import { flatnessOf, governingCheck, type FlatnessView } from "../common/flatness";
import type { FlatLayer } from "../common/flatnessLayers";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfCheck } from "../common/route";
import { useRoom, type RoomView } from "../common/useRoom";
import { CheckDrawing } from "./CheckDrawing";
import { PassOverLink } from "./edge/PassOver";
import { FNumbers } from "./FNumbers";
import { LevelAndFall } from "./LevelAndFall";
import { Limits } from "./Limits";
import { Measured } from "./Measured";
import { OpenedOnBed } from "./OpenedOnBed";
import { Standards } from "./Standards";
import { NotRead, VerdictHead } from "./VerdictHead";
import { WorkList } from "./WorkList";

/** A straightedge laid by computation: it measures nothing, so whoever may only look may lay one too. */
function LayLink({ room, wide = false }: { room: RoomView; wide?: boolean }) {
  return <Link to={pathOfCheck(room.id, "edge")} class={wide ? "button wide" : "button"} testid="lay-edge">{t("checking.lay")}</Link>;
}

/** Ways to find out more; the first is what the check lacks most. */
function Ways({ room, view }: { room: RoomView; view: FlatnessView | null }) {
  if (!mayWrite.value) return <LayLink room={room} wide />;
  const lacking = view?.flatness.next_readings.length ?? 0;
  const isLacking = !view || view.flatness.verdict === "not_read" || view.flatness.verdict === "too_sparse";
  const check = isLacking && view ? governingCheck(view.flatness) : null;
  const label = !view || view.flatness.readings === 0 || lacking === 0 ? t("checking.read") : t("checking.read_more", { places: lacking });
  return (
    <div class="stack tight">
      <Link to={pathOfCheck(room.id, "read")} class={isLacking ? "button main wide" : "button wide"} testid="read-bed">{label}</Link>
      {check && <PassOverLink room={room.id} check={check} />}
      <div class="row even">
        <LayLink room={room} />
        <Link to={pathOfCheck(room.id, "heights")} class="button" testid="height-line">{t("checking.heights")}</Link>
      </div>
    </div>
  );
}

/** What stands beside a limit, the work list, level or F-numbers is told there; the rest over all of them. */
function wholeCautions(plan: Plan): readonly Caution[] {
  const apart = new Set(cautionsAt(plan, "flatness.work", "flatness.level", "flatness.f_numbers"));
  return cautionsAt(plan, "flatness").filter((caution) => !apart.has(caution) && !caution.where.startsWith("flatness.checks["));
}

function Found({ room, view: { flatness, plan } }: { room: RoomView; view: FlatnessView }) {
  return (
    <>
      <Cautions cautions={wholeCautions(plan)} />
      <WorkList room={room} flatness={flatness} plan={plan} />
      <Limits room={room} flatness={flatness} plan={plan} />
      <LevelAndFall flatness={flatness} plan={plan} />
      <FNumbers flatness={flatness} plan={plan} />
    </>
  );
}

/** Readings that have no height yet, as nothing ties their set-up: the verdict stands without them. */
function Untied({ plan }: { plan: Plan | null }) {
  const untied = (plan?.notices ?? []).filter(({ code }) => code === "untied_setup");
  return <>{untied.map((notice) => <p key={notice.path} class="caution" role="alert" data-testid="untied-setup">{problemText(notice)}</p>)}</>;
}

export function Checking({ id }: { id: string }) {
  const room = useRoom(id);
  const [layer, setLayer] = useState<FlatLayer>("height");
  const [opened, setOpened] = useState<string | null>(null);
  if (!room) return <Missing />;
  const view = flatnessOf(room);
  const drawing = <CheckDrawing room={room} view={view} layer={layer} onLayer={setLayer} onOpen={setOpened} />;
  return (
    <RoomFrame room={room} step="checking" drawing={drawing}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {!room.plan && <NoPlan room={room} />}
        {view ? <VerdictHead view={view} /> : room.plan && countAt(room.readings, "bed") === 0 && <NotRead />}
        <Untied plan={room.plan} />
        {room.fields.outline && <Ways room={room} view={view} />}
        {view && <Found room={room} view={view} />}
        <Measured room={room} view={view} onOpen={setOpened} />
        <Standards room={room} />
      </div>
      <OpenedOnBed room={room} view={view} id={opened} onClose={() => setOpened(null)} />
    </RoomFrame>
  );
}
