/** The bed: where its top lies, what that makes of thickness, doorways, load and order, and how it is built. */
import { useMemo } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import type { Scene } from "../../drawing/scene";
import { editRoom, preferences } from "../../state";
import { areaText, depthText, heightText, loadText, massText, volumeText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { Figure } from "../common/Figure";
import { roomScene } from "../common/roomFigure";
import { withLayer } from "../common/layers";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { volumeRange } from "../common/ranges";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfJoints } from "../common/route";
import { saved } from "../common/saving";
import { ScaleKey } from "../common/ScaleKey";
import { fallsOf, hasFalls } from "../common/topLayers";
import { useRoom, type RoomView } from "../common/useRoom";
import { ProfileButton, ProfilePanel } from "../profile/ProfilePanel";
import { useProfile, type Profile } from "../profile/useProfile";
import { Alternatives } from "./Alternatives";
import { BuildUp } from "./BuildUp";
import { Chipping } from "./Chipping";
import { Deciding } from "./Deciding";
import { Higher } from "./Higher";
import { isConflict } from "./kinds/relief";
import { Covering, Limits } from "./Limits";
import { planUnder, useTrial, type Trial } from "./useTrial";


function Load({ plan }: { plan: Plan }) {
  const { load, mass } = plan.bed;
  return (
    <section class="stack tight load" data-testid="load">
      <h3>{t("bed.load")}</h3>
      <div class="figures one">
        <Figure label={t("bed.load_mean")} value={loadText(load.mean, reader.value)} plan={plan} path="bed.load.mean" />
        <Figure label={t("bed.load_max")} value={loadText(load.max, reader.value)} plan={plan} path="bed.load.max" />
        <Figure label={t("bed.mass")} value={massText(mass, reader.value)} plan={plan} path="bed.mass" />
      </div>
      <Cautions cautions={cautionsAt(plan, "bed.load")} />
    </section>
  );
}

function Figures({ plan }: { plan: Plan }) {
  const { thickness, volume, top } = plan.bed;
  return (
    <>
      <div class="figures">
        <Figure label={t("bed.volume")} value={volumeText(volume, reader.value)} plan={plan} path="bed.volume" range={volumeRange(plan)} />
        <Figure label={t("bed.mean")} value={depthText(thickness.mean, reader.value)} plan={plan} path="bed.thickness.mean" />
        <Figure label={t("bed.top_at")} value={heightText(top[0]?.a ?? 0, reader.value)} plan={plan} path="bed.top[0]" />
        <Figure label={t("outline.area")} value={areaText(plan.outline.area, reader.value)} plan={plan} path="outline.area" />
      </div>
      <Cautions cautions={cautionsAt(plan, "levels")} />
      <Load plan={plan} />
    </>
  );
}

/** How thick the bed is and where it breaks a limit; where it breaks none, how its top falls. */
function sceneOf(room: RoomView, plan: Plan | null): Scene {
  const scene = withLayer(roomScene(room.fields), plan, "thickness");
  return plan && hasFalls(plan) && plan.bed.violations.length === 0 ? { ...scene, falls: fallsOf(plan) } : scene;
}

function BedDrawing({ room, plan, profile }: { room: RoomView; plan: Plan | null; profile: Profile }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => sceneOf(room, plan), [room.fields, plan, language, units]);
  const thickness = plan?.bed.thickness;
  return (
    <>
      <Drawing scene={{ ...scene, cut: profile.cut }} name="bed" {...(profile.isOn ? { onStroke: profile.draw, onPlace: profile.tap } : {})} />
      <div class="under-drawing">
        {thickness && <ScaleKey kind="bed" low={depthText(thickness.min, reader.value)} high={depthText(thickness.max, reader.value)} />}
        {plan && <ProfileButton profile={profile} />}
      </div>
    </>
  );
}

function Build({ room }: { room: RoomView }) {
  return (
    <Choice
      label={t("bed.build")} name="build" value={room.fields["bed.build"] ?? "unbonded"} onChoose={(build) => void saved(editRoom(room.id, { "bed.build": build }))}
      options={[{ value: "unbonded", label: t("bed.unbonded") }, { value: "bonded", label: t("bed.bonded") }]}
    />
  );
}

/** What the height makes of everything else. Under a top that gives no bed there is nothing to tell but the limits. */
function Below({ room, trial, shown }: { room: RoomView; trial: Trial; shown: Plan | null }) {
  const plan = trial.now && shown;
  return (
    <>
      {plan && <Higher plan={plan} />}
      {plan && <Chipping room={room} plan={plan} />}
      {plan && <Figures plan={plan} />}
      <Build room={room} />
      <Limits room={room} plan={plan} />
      {trial.now && <BuildUp now={trial.now} />}
      <Covering room={room} />
      <Link to={pathOfJoints(room.id)} class="button wide" testid="open-joints">{t("joints.title")}</Link>
    </>
  );
}

/** Problems of the chosen top stand where it is decided; the rest stand above. */
function notesOf({ state }: RoomView): RoomView["state"] {
  return { ...state, problems: state.problems.filter((problem) => !isConflict(problem)) };
}

function RoomBed({ room }: { room: RoomView }) {
  const profile = useProfile(room.id);
  const trial = useTrial(room);
  const { plan } = room;
  const { now } = trial;
  const shown = useMemo(() => plan && planUnder(plan, now), [plan, now]);
  const isDecidable = plan !== null || room.state.problems.some(({ path }) => path.startsWith("bed"));
  return (
    <RoomFrame room={room} step="bed" drawing={<BedDrawing room={room} plan={shown} profile={profile} />}>
      <div class="stack">
        <ProfilePanel profile={profile} />
        <PlanNotes state={notesOf(room)} />
        {room.fields.outline && <Deciding room={room} trial={trial} />}
        <Alternatives room={room} />
        {isDecidable && <Below room={room} trial={trial} shown={shown} />}
        {!plan && <NoPlan room={room} />}
      </div>
    </RoomFrame>
  );
}

export function Bed({ id }: { id: string }) {
  const room = useRoom(id);
  return room ? <RoomBed key={id} room={room} /> : <Missing />;
}
