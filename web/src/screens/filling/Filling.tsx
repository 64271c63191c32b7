/** Filling: the clock that knows the mortar, one tap for each moment, and the floor as it stands. */
import { useMemo, useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import { editRoom, fillClockOf, mayWrite, preferences } from "../../state";
import type { Plan } from "../../wire";
import { t } from "../../words";
import { fillingOf, type FillingNow } from "../common/filled";
import { Habits } from "../common/Habits";
import { liveScene } from "../common/liveFloor";
import { LiveKey } from "../common/LiveKey";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt, problemText } from "../common/plan";
import { roomScene } from "../common/roomFigure";
import { RoomFrame } from "../common/RoomFrame";
import { saved } from "../common/saving";
import { useAwake } from "../common/useAwake";
import { useRoom, type RoomView } from "../common/useRoom";
import { AlarmSettings } from "./AlarmSettings";
import { Batches, BatchWarnings } from "./Batches";
import { Countdown, NoBatch } from "./Countdown";
import { Day } from "./Day";
import { DayBook } from "./DayBook";
import { Forms, StopHere } from "./Edges";
import { NowLine } from "./NowLine";
import { Sections } from "./Sections";
import { Taps } from "./Taps";

interface FillingProps {
  readonly room: RoomView;
  readonly plan: Plan;
  readonly filling: FillingNow;
}

function ClockFace({ room, plan, filling }: FillingProps) {
  const [oldest] = filling.fresh;
  return (
    <div class="fill-clock" data-testid="fill-clock">
      <NowLine room={room.id} plan={plan} filling={filling} />
      {oldest ? <Countdown key={oldest.id} batch={oldest} /> : <NoBatch hours={(filling.clock ?? plan).working_time.hours} />}
      <BatchWarnings fresh={filling.fresh} />
      {mayWrite.value && <Taps room={room.id} acts={filling.acts} />}
      <Habits room={room} at="filling" />
    </div>
  );
}

function LiveDrawing({ room }: { room: RoomView }) {
  const { language, units } = preferences.value;
  const [isPlacing, setPlacing] = useState(false);
  const bare = useMemo(() => roomScene(room.fields), [room.fields, language, units]);
  const scene = liveScene(bare, room.plan, room.id);
  const stand = (at: Place | null) => { setPlacing(false); void saved(editRoom(room.id, { "filling.mixer": at })); };
  return (
    <>
      <Drawing scene={scene} name="filling" {...(isPlacing ? { onPlace: stand } : {})} />
      {scene.live && <LiveKey live={scene.live} />}
      {mayWrite.value && scene.live && <MixerPlace isPlacing={isPlacing} isInside={scene.live.mixer !== null} onPlacing={setPlacing} onOutside={() => stand(null)} />}
    </>
  );
}

interface MixerPlaceProps {
  readonly isPlacing: boolean;
  readonly isInside: boolean;
  readonly onPlacing: (isPlacing: boolean) => void;
  readonly onOutside: () => void;
}

/** The mixer is never left behind fresh bed: where it stands in the room, sections beside it are filled last. */
function MixerPlace({ isPlacing, isInside, onPlacing, onOutside }: MixerPlaceProps) {
  return (
    <div class="stack tight">
      <div class="row even">
        <button type="button" class="button" aria-pressed={isPlacing} data-testid="place-mixer" onClick={() => onPlacing(!isPlacing)}>{t(isInside ? "mixer.move" : "mixer.place")}</button>
        {isInside && <button type="button" class="button" data-testid="mixer-outside" onClick={onOutside}>{t("mixer.outside")}</button>}
      </div>
      {isPlacing && <p class="notice" role="status" data-testid="mixer-how">{t("mixer.how")}</p>}
    </div>
  );
}

/** What the engine has to say of the filling itself: entries it left out, that it broke, that something is wrong. */
function ClockNotes({ id }: { id: string }) {
  const { answer: clock, problems, hasFailed } = fillClockOf(id).value;
  return (
    <>
      {hasFailed && <p class="caution" role="alert">{t("engine.failed")}</p>}
      {problems.map((problem, index) => <p key={index} class="caution" data-code={problem.code}>{problemText(problem)}</p>)}
      {clock && <Cautions cautions={cautionsAt(clock, "sections", "batches")} />}
      {clock?.notices.map((notice, index) => <p key={index} class="notice" data-code={notice.code}>{problemText(notice)}</p>)}
    </>
  );
}

function Panel({ room, plan, filling }: FillingProps) {
  return (
    <>
      <ClockNotes id={room.id} />
      <Day room={room} filling={filling} />
      <StopHere filling={filling} />
      <Sections room={room.id} plan={plan} filling={filling} />
      <Cautions cautions={[...cautionsAt(plan, "sections"), ...(filling.clock ? cautionsAt(filling.clock, "filling") : [])]} />
      <Batches filling={filling} />
      <Forms room={room.id} plan={plan} />
      <DayBook room={room.id} />
      <AlarmSettings />
      <Cautions cautions={cautionsAt(plan, "materials")} />
    </>
  );
}

export function Filling({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  if (!room) return <Missing />;
  const { plan } = room;
  const filling = plan && fillingOf(id, plan);
  const top = plan && filling ? <ClockFace room={room} plan={plan} filling={filling} /> : null;
  return (
    <RoomFrame room={room} step="filling" drawing={<>{top}<LiveDrawing room={room} /></>}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {!plan && <NoPlan room={room} />}
        {plan && filling && <Panel room={room} plan={plan} filling={filling} />}
      </div>
    </RoomFrame>
  );
}
