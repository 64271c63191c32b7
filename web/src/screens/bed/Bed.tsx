/** The bed: how it is built, where its top lies, and what that makes of thickness, limits, load and doorways. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import { editRoom, preferences } from "../../state";
import { areaText, depthText, heightText, loadText, massText, volumeText } from "../../units";
import type { Plan } from "../../wire";
import { reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { Figure } from "../common/Figure";
import { placeText, roomScene } from "../common/roomFigure";
import { withLayer } from "../common/layers";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { volumeRange } from "../common/ranges";
import { RoomFrame } from "../common/RoomFrame";
import { saved } from "../common/saving";
import { ScaleKey } from "../common/ScaleKey";
import { useRoom, type RoomView } from "../common/useRoom";
import { ProfileButton, ProfilePanel } from "../profile/ProfilePanel";
import { useProfile, type Profile } from "../profile/useProfile";
import { Alternatives } from "./Alternatives";
import { Deciding } from "./Deciding";
import { BuildUp, Doorways } from "./Doorways";
import { Higher } from "./Higher";
import { Covering, Limits } from "./Limits";

const NO_STATIONS: ReadonlySet<string> = new Set();

const FIRST_FEW = 3;

function Violations({ plan }: { plan: Plan }) {
  const [all, setAll] = useState(false);
  const broken = plan.bed.violations;
  if (broken.length === 0) return <p class="notice good" data-testid="no-violations">{t("bed.within")}</p>;
  return (
    <section class="stack tight">
      <ul class="lines" data-testid="violations">
        {(all ? broken : broken.slice(0, FIRST_FEW)).map(({ kind, at, thickness, by }, index) => (
          <li key={index} class="caution">{t(`limit.${limitKind(kind)}`, { place: placeText(at), thickness, by })}</li>
        ))}
      </ul>
      {broken.length > FIRST_FEW && !all && <button type="button" class="button wide" data-testid="all-violations" onClick={() => setAll(true)}>{t("limit.all", { count: broken.length })}</button>}
    </section>
  );
}

function limitKind(kind: string): "no_bed" | "too_thin" | "too_thick" {
  return kind === "no_bed" || kind === "too_thin" ? kind : "too_thick";
}

function Figures({ plan }: { plan: Plan }) {
  const { thickness, volume, mass, load } = plan.bed;
  const text = (depth: number) => depthText(depth, reader.value);
  return (
    <>
      <div class="figures three">
        <Figure label={t("bed.thinnest")} value={text(thickness.min)} plan={plan} path="bed.thickness.min" />
        <Figure label={t("bed.mean")} value={text(thickness.mean)} plan={plan} path="bed.thickness.mean" />
        <Figure label={t("bed.thickest")} value={text(thickness.max)} plan={plan} path="bed.thickness.max" />
      </div>
      <Violations plan={plan} />
      <div class="figures">
        <Figure label={t("bed.volume")} value={volumeText(volume, reader.value)} plan={plan} path="bed.volume" range={volumeRange(plan)} />
        <Figure label={t("outline.area")} value={areaText(plan.outline.area, reader.value)} plan={plan} path="outline.area" />
      </div>
      <Cautions cautions={cautionsAt(plan, "bed.thickness", "bed.top", "levels")} />
      <section class="stack tight load" data-testid="load">
        <h3>{t("bed.load")}</h3>
        <div class="figures one">
          <Figure label={t("bed.load_mean")} value={loadText(load.mean, reader.value)} plan={plan} path="bed.load.mean" />
          <Figure label={t("bed.load_max")} value={loadText(load.max, reader.value)} plan={plan} path="bed.load.max" />
          <Figure label={t("bed.mass")} value={massText(mass, reader.value)} plan={plan} path="bed.mass" />
        </div>
        <Cautions cautions={cautionsAt(plan, "bed.load")} />
      </section>
    </>
  );
}

function BedDrawing({ room, profile }: { room: RoomView; profile: Profile }) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => withLayer(roomScene(room.fields), room.plan, "thickness", NO_STATIONS), [room.fields, room.plan, language, units]);
  const thickness = room.plan?.bed.thickness;
  return (
    <>
      <Drawing scene={{ ...scene, cut: profile.cut }} name="bed" {...(profile.isOn ? { onStroke: profile.draw, onPlace: profile.tap } : {})} />
      {thickness && <ScaleKey kind="bed" low={depthText(thickness.min, reader.value)} high={depthText(thickness.max, reader.value)} />}
      {room.plan && <ProfileButton profile={profile} />}
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

export function Bed({ id }: { id: string }) {
  const room = useRoom(id);
  const profile = useProfile(id);
  if (!room) return <Missing />;
  const { plan } = room;
  return (
    <RoomFrame room={room} step="bed" drawing={<BedDrawing room={room} profile={profile} />}>
      <div class="stack">
        <ProfilePanel profile={profile} />
        <PlanNotes state={room.state} />
        {room.fields.outline && <Deciding room={room} plan={plan} />}
        {plan ? (
          <>
            <Alternatives room={room.id} />
            <Figure label={t("bed.top_at")} value={heightText(plan.bed.top[0]?.a ?? 0, reader.value)} plan={plan} path="bed.top[0]" />
            <Higher plan={plan} />
            <Figures plan={plan} />
            <Build room={room} />
            <Limits room={room} plan={plan} />
            <Doorways bed={plan.bed} />
            <BuildUp bed={plan.bed} />
            <Covering room={room} />
          </>
        ) : <NoPlan room={room} />}
        {room.state.problems.some(({ path }) => path.startsWith("bed")) && <><Limits room={room} plan={null} /><Covering room={room} /></>}
      </div>
    </RoomFrame>
  );
}
