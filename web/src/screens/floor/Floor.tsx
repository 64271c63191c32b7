/** A room opens here: its drawing with the layers of the plan, what governs, and the way to every step. */
import { useMemo, useState } from "preact/hooks";
import { Drawing } from "../../drawing/Drawing";
import type { Scene } from "../../drawing/scene";
import { countAt, mayWrite, preferences, setStationsOf } from "../../state";
import { depthText, errorText, heightText, massText, volumeText } from "../../units";
import { isOffice, reader, t } from "../../words";
import { Choice } from "../common/Choice";
import { Course } from "../common/Course";
import { Figure } from "../common/Figure";
import { roomScene } from "../common/roomFigure";
import { JointsKey } from "../common/JointsKey";
import { flatnessOf, offText } from "../common/flatness";
import { baseOf, withFlatness } from "../common/flatnessLayers";
import { withLayer, type Layer } from "../common/layers";
import { liveScene } from "../common/liveFloor";
import { LiveKey } from "../common/LiveKey";
import { Link } from "../common/Link";
import { Missing } from "../common/Missing";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { highToLow } from "../common/ownExplanations";
import { RoomFrame } from "../common/RoomFrame";
import { pathOfHandOver, pathOfHistory, pathOfInOut, pathOfJoints } from "../common/route";
import { ScaleKey } from "../common/ScaleKey";
import { SignedLine } from "../common/SignedLine";
import { hasFalls } from "../common/topLayers";
import { ToDecide } from "../common/ToDecide";
import { useRoom, type RoomView } from "../common/useRoom";
import { PhotoStrip } from "../photos/PhotoStrip";
import { NextList, OpenedPoint } from "../levels/OpenedPoint";
import { ProfileButton, ProfilePanel } from "../profile/ProfilePanel";
import { useProfile, type Profile } from "../profile/useProfile";
import { ChangeRoom } from "./ChangeRoom";
import type { Plan } from "../../wire";

type Shown = Layer | "live" | "flatness";
const LAYERS: readonly Shown[] = ["readings", "ground", "thickness", "falls", "doubt", "joints", "rails", "sections", "live", "flatness"];
const KEY_TEXTS = { ground: heightText, bed: depthText, doubt: errorText, flat: offText } as const;

function Key({ scene, plan }: { scene: Scene; plan: Plan | null }) {
  if (scene.live) return <LiveKey live={scene.live} />;
  if (scene.joints && plan) return <JointsKey joints={plan.joints} />;
  const bands = scene.fill?.bands ?? [];
  const [first, last] = [bands[0], bands.at(-1)];
  if (!scene.fill || !first || !last) return null;
  const text = KEY_TEXTS[scene.fill.kind];
  const base = plan?.flatness ? baseOf(plan.flatness) : 0;
  return (
    <>
      <ScaleKey kind={scene.fill.kind} low={text(first.low, reader.value)} high={text(last.high, reader.value)} />
      {scene.fill.kind === "doubt" && <p class="quiet small">{t("doubt.key")}</p>}
      {scene.fill.kind === "flat" && base !== 0 && <p class="quiet small">{t("checking.about_mean", { mean: offText(base) })}</p>}
    </>
  );
}

function Governing({ plan }: { plan: Plan }) {
  const { thickness, volume, mass } = plan.bed;
  const { highest, lowest } = plan.surface;
  return (
    <>
      <div class="figures">
        <Figure label={t("floor.high_to_low")} value={depthText(highest.z - lowest.z, reader.value)} plan={plan} path="surface.high_to_low" explanation={highToLow(plan)} />
        <Figure label={t("bed.mean")} value={depthText(thickness.mean, reader.value)} plan={plan} path="bed.thickness.mean" />
        <Figure label={t("bed.volume")} value={volumeText(volume, reader.value)} plan={plan} path="bed.volume" />
        <Figure label={t("bed.mass")} value={massText(mass, reader.value)} plan={plan} path="bed.mass" />
      </div>
      <Cautions cautions={cautionsAt(plan, "outline", "levels", "bed.load")} />
    </>
  );
}

function FloorDrawing({ room, profile, onOpen }: { room: RoomView; profile: Profile; onOpen: (id: string) => void }) {
  const [layer, setLayer] = useState<Shown>("ground");
  const { language, units } = preferences.value;
  const set = setStationsOf(room.id, room.plan?.rails ?? []);
  const bare = useMemo(() => roomScene(room.fields), [room.fields, language, units]);
  const flatness = flatnessOf(room)?.flatness ?? null;
  const still = useMemo(() => (layer === "live" || layer === "flatness" ? null : withLayer(bare, room.plan, layer, set)), [bare, room.plan, layer, set]);
  const scene = still ?? (layer === "flatness" ? withFlatness(bare, flatness, "height", []) : liveScene(bare, room.plan, room.id));
  const ways = profile.isOn ? { onStroke: profile.draw, onPlace: profile.tap } : { onOpen };
  return (
    <>
      <Drawing scene={{ ...scene, cut: profile.cut }} name="floor" {...ways} />
      <Key scene={scene} plan={room.plan} />
      {layer === "doubt" && !scene.fill && <p class="quiet small">{t("doubt.waiting")}</p>}
      {room.plan && <ProfileButton profile={profile} />}
      {room.plan && (!profile.isOn || isOffice.value) && <Choice label={t("layer.label")} name="layer" value={layer} onChoose={setLayer} options={LAYERS.filter((value) => (value !== "falls" || hasFalls(room.plan)) && (value !== "flatness" || (flatness?.points.length ?? 0) > 0)).map((value) => ({ value, label: t(`layer.${value}`) }))} />}
    </>
  );
}

export function Floor({ id }: { id: string }) {
  const room = useRoom(id);
  const profile = useProfile(id);
  const [opened, setOpened] = useState<string | null>(null);
  const [changing, setChanging] = useState(false);
  if (!room) return <Missing />;
  return (
    <RoomFrame room={room} step={null} drawing={<FloorDrawing room={room} profile={profile} onOpen={setOpened} />}>
      <div class="stack">
        <ProfilePanel profile={profile} />
        <ToDecide room={room.id} isLink />
        {room.fields.outline ? <PlanNotes state={room.state} /> : <p class="notice">{t("floor.no_outline")}</p>}
        {room.plan && <Governing plan={room.plan} />}
        {room.plan && <NextList plan={room.plan} onOpen={setOpened} />}
        <div class="only-phone"><Course room={room.id} facts={{ readings: countAt(room.readings, "subfloor"), plan: room.plan }} current={null} /></div>
        {room.fields.outline && <Link to={pathOfJoints(room.id)} class="button wide" testid="open-joints">{t("joints.title")}</Link>}
        {room.fields.outline && <Link to={pathOfInOut(room.id)} class="button wide" testid="readings-in-out">{t("in_out.open")}</Link>}
        {room.fields.outline && <Link to={pathOfHandOver(room.id)} class="button wide" testid="open-record">{t("record.open")}</Link>}
        <SignedLine room={room.id} />
        <PhotoStrip room={room.id} />
        <div class="row even">
          <button type="button" class="button" data-testid="print" onClick={() => window.print()}>{t("print.do")}</button>
          {mayWrite.value
            ? <button type="button" class="button" data-testid="change-room" onClick={() => setChanging(true)}>{t("room.change")}</button>
            : <Link to={pathOfHistory("room", room.id)} class="button" testid="room-history">{t("history.open")}</Link>}
        </div>
      </div>
      <OpenedPoint room={room} id={opened} onClose={() => setOpened(null)} />
      {changing && <ChangeRoom room={room} onClose={() => setChanging(false)} />}
    </RoomFrame>
  );
}
