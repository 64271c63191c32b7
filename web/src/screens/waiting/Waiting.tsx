/** The waiting: what is next, in giant figures; windows, temperatures, weather that harms, and who looked. */
import { waitingOf } from "../../state";
import { clockText, hoursText } from "../../units";
import type { Plan, WaitingAnswer } from "../../wire";
import { reader, t } from "../../words";
import { WaitingPlot } from "../../plots/WaitingPlot";
import { CalendarButton } from "../common/CalendarButton";
import { Figure } from "../common/Figure";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfHandOver } from "../common/route";
import { useRoom, type RoomView } from "../common/useRoom";
import { Constants } from "./Constants";
import { Drying } from "./Drying";
import { Milestones } from "./Milestones";
import { Next } from "./Next";
import { isPlacedInPart, Placed } from "./Placed";
import { Temperatures } from "./Temperatures";
import { TileChoice } from "./TileChoice";
import { Weather } from "./Weather";

/** What is gathered so far, by the method that counts. */
function Now({ answer, plan }: { answer: WaitingAnswer; plan: Plan }) {
  const { method, age_now: age, factor_now: factor, celsius_now: celsius } = answer;
  const { working_time: working } = plan;
  const batch = working.until ? t("waiting.use_until", { at: clockText(working.until, reader.value) }) : undefined;
  const isFactor = method === "temperature_time";
  const note = celsius === null ? undefined : t("waiting.now_at", { temperature: celsius });
  const gathered = isFactor ? factor : age;
  return (
    <div class="figures">
      {gathered !== null && <Figure label={t(isFactor ? "waiting.factor" : "waiting.age")} value={isFactor ? t("waiting.factor_value", { factor: Math.round(gathered) }) : hoursText(gathered, reader.value)} plan={answer} path={isFactor ? "factor_now" : "age_now"} {...(note === undefined ? {} : { note })} />}
      <Figure label={t("waiting.working_time")} value={hoursText(working.hours, reader.value)} plan={plan} path="working_time" {...(batch === undefined ? {} : { note: batch })} />
    </div>
  );
}

function Notices({ answer }: { answer: WaitingAnswer }) {
  return <>{answer.notices.map((notice, index) => <p key={index} class="notice" data-code={notice.code}>{problemText(notice)}</p>)}</>;
}

/** What is still to be placed is asked for above, what is in place stands below. */
function isAllPlaced(room: RoomView, { placed_at: placedAt }: WaitingAnswer): boolean {
  return placedAt !== null && !isPlacedInPart(room);
}

/** Beside the list in a wide window, above everything on a phone. */
function Picture({ room, answer }: { room: RoomView; answer: WaitingAnswer | null }) {
  return (
    <div class="waiting-picture">
      <PlanNotes state={room.state} />
      {answer && <Next room={room.id} answer={answer} />}
      {answer && isPlacedInPart(room) && <p class="caution" data-testid="placed-in-part">{t("waiting.in_part")}</p>}
      {answer && !isAllPlaced(room, answer) && <Placed room={room} />}
      {answer && <WaitingPlot answer={answer} />}
    </div>
  );
}

function Answered({ room, plan, answer }: { room: RoomView; plan: Plan; answer: WaitingAnswer }) {
  return (
    <>
      <Cautions cautions={cautionsAt(answer, "readiness")} />
      <Notices answer={answer} />
      <Milestones room={room.id} plan={plan} answer={answer} />
      {answer.placed_at !== null && <CalendarButton rooms={[room.id]} name={room.fields.name ?? ""} />}
      <Weather answer={answer} />
      <TileChoice room={room} answer={answer} />
      <Drying room={room} answer={answer} />
    </>
  );
}

export function Waiting({ id }: { id: string }) {
  const room = useRoom(id);
  const { answer, problems, hasFailed } = waitingOf(id).value;
  if (!room) return <Missing />;
  const { plan } = room;
  return (
    <RoomFrame room={room} step="waiting" drawing={<Picture room={room} answer={plan && answer} />}>
      <div class="stack">
        {!plan && <NoPlan room={room} />}
        {plan && problems.map((problem, index) => <p key={index} class="caution" data-code={problem.code}>{problemText(problem)}</p>)}
        {plan && hasFailed && <p class="caution" role="alert">{t("engine.failed")}</p>}
        {plan && answer && <Answered room={room} plan={plan} answer={answer} />}
        {plan && answer && <Now answer={answer} plan={plan} />}
        <Temperatures room={room} />
        {answer && isAllPlaced(room, answer) && <Placed room={room} />}
        {plan && <Constants room={room} plan={plan} />}
        {plan && <Link to={pathOfHandOver(id)} class="button wide" testid="open-record">{t("record.open")}</Link>}
      </div>
    </RoomFrame>
  );
}
