/** Movement joints: where they run, how wide they are, and the joints of the slab below that they must follow. */
import { useMemo, useState } from "preact/hooks";
import type { Place } from "../../drawing/camera";
import { Drawing } from "../../drawing/Drawing";
import { editRoom, mayWrite, preferences } from "../../state";
import { depthText, errorText, lengthText, numberText } from "../../units";
import type { Line, Plan } from "../../wire";
import { reader, t } from "../../words";
import { Figure } from "../common/Figure";
import { JointsKey } from "../common/JointsKey";
import { withLayer } from "../common/layers";
import { Missing } from "../common/Missing";
import { NoPlan } from "../common/NoPlan";
import { Cautions, PlanNotes } from "../common/Notes";
import { cautionsAt } from "../common/plan";
import { cornersOf, placeText, roomScene } from "../common/roomFigure";
import { RoomFrame } from "../common/RoomFrame";
import { saved } from "../common/saving";
import { useRoom, type RoomView } from "../common/useRoom";
import { JointSettings } from "./JointSettings";
import { slabJointFrom } from "./slabJoint";


/** A joint of the slab while it is drawn: off, waiting for its first tap, or for its second. */
type Drawn = "off" | "first" | Place;

function slabJoints(room: RoomView): readonly Line[] {
  return room.fields["joints.slab_joints"] ?? [];
}

interface DrawnProps {
  readonly room: RoomView;
  readonly drawn: Drawn;
  readonly onDrawn: (drawn: Drawn) => void;
}

function JointsDrawing({ room, drawn, onDrawn }: DrawnProps) {
  const { language, units } = preferences.value;
  const scene = useMemo(() => withLayer(roomScene(room.fields), room.plan, "joints"), [room.fields, room.plan, language, units]);
  const points = typeof drawn === "string" ? [] : [{ id: "end", at: drawn, label: "", kind: "current" as const }];
  const tapped = (at: Place) => {
    if (typeof drawn === "string") onDrawn(at);
    else keep(at, drawn);
  };
  const keep = (at: Place, from: Place) => {
    const joint = slabJointFrom(cornersOf(room.fields.outline), from, at);
    if (joint) void saved(editRoom(room.id, { "joints.slab_joints": [...slabJoints(room), joint] }));
    onDrawn(joint ? "off" : from);
  };
  return (
    <>
      <Drawing scene={{ ...scene, points }} name="joints" {...(drawn === "off" ? {} : { onPlace: tapped })} />
      {mayWrite.value && (
        <button type="button" class="button wide" aria-pressed={drawn !== "off"} data-testid="draw-slab-joint" onClick={() => onDrawn(drawn === "off" ? "first" : "off")}>
          {t(drawn === "off" ? "joints.slab_draw" : "joints.slab_leave")}
        </button>
      )}
      {drawn !== "off" && <p class="notice" role="status" data-testid="slab-how">{t(drawn === "first" ? "joints.slab_first" : "joints.slab_second")}</p>}
      {room.plan && <JointsKey joints={room.plan.joints} />}
    </>
  );
}

function SlabJoints({ room }: { room: RoomView }) {
  const joints = slabJoints(room);
  const remove = (gone: Line) => void saved(editRoom(room.id, { "joints.slab_joints": joints.filter((joint) => joint !== gone) }));
  return (
    <section class="stack tight">
      <h3>{t("joints.slab_title")}</h3>
      <p class="quiet small">{t("joints.slab_more")}</p>
      <ul class="lines" data-testid="slab-joints">
        {joints.map((joint, index) => {
          const text = t("joints.slab_line", { from: placeText(joint[0]), to: placeText(joint[1]) });
          return (
            <li key={index} class="line">
              <span>{text}</span>
              <button type="button" class="button" data-testid="remove-slab-joint" aria-label={t("remove_named", { what: text })} onClick={() => remove(joint)}>{t("remove")}</button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Figures({ plan }: { plan: Plan }) {
  const { joints } = plan;
  const depth = (mm: number) => depthText(mm, reader.value);
  return (
    <div class="figures">
      <Figure label={t("joints.width")} value={depth(joints.width)} plan={plan} path="joints.width" note={t(joints.governs === "movement" ? "joints.by_movement" : "joints.as_published")} />
      <Figure label={t("joints.perimeter_width")} value={depth(joints.perimeter.width)} plan={plan} path="joints.perimeter.width" />
      <Figure label={t("joints.longest_panel")} value={lengthText(joints.longest_panel, reader.value)} plan={plan} path="joints.longest_panel" />
      <Figure label={t("joints.perimeter_length")} value={lengthText(joints.perimeter.length, reader.value)} plan={plan} path="joints.perimeter.length" />
      {joints.movement !== null && <Figure label={t("joints.movement")} value={errorText(joints.movement, reader.value)} plan={plan} path="joints.movement" />}
      {joints.width_by_movement !== null && <Figure label={t("joints.width_by_movement")} value={errorText(joints.width_by_movement, reader.value)} plan={plan} path="joints.width_by_movement" />}
    </div>
  );
}

type Joint = Plan["joints"]["field"][number];

function whyText({ why }: Joint): string {
  if (why === "slab") return t("joint_why.slab");
  if (why === "carried_on") return t("joint_why.carried_on");
  if (why === "inside_corner") return t("joint_why.inside_corner");
  return t(why === "cutout" ? "joint_why.cutout" : "joint_why.spacing");
}

function JointLine({ joint }: { joint: Joint }) {
  const { id, from, to, module_off: off } = joint;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return (
    <li class="line" data-testid="joint-line">
      <span><strong>{id.replace(/^J/, "")}</strong> {whyText(joint)}{off !== null && off > 0 && ` ${t("joints.off_tile", { off })}`}</span>
      <span>{lengthText(length, reader.value)}</span>
    </li>
  );
}

function List({ plan }: { plan: Plan }) {
  const { field, panels } = plan.joints;
  if (field.length === 0) return <p class="notice" data-testid="no-joints">{t("joints.none")}</p>;
  return (
    <section class="stack tight">
      <Figure label={t("joints.in_floor")} value={numberText(field.length, 0, reader.value.language)} plan={plan} path="joints.field" note={t("joints.panels", { panels: panels.length })} />
      <ul class="lines">{field.map((joint) => <JointLine key={joint.id} joint={joint} />)}</ul>
    </section>
  );
}

export function Joints({ id }: { id: string }) {
  const room = useRoom(id);
  const [drawn, setDrawn] = useState<Drawn>("off");
  if (!room) return <Missing />;
  const { plan } = room;
  return (
    <RoomFrame room={room} step={null} drawing={<JointsDrawing room={room} drawn={drawn} onDrawn={setDrawn} />}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {plan ? <><Figures plan={plan} /><Cautions cautions={cautionsAt(plan, "joints")} /><List plan={plan} /></> : <NoPlan room={room} />}
        {room.fields.outline && <SlabJoints room={room} />}
        <JointSettings room={room} plan={plan} />
      </div>
    </RoomFrame>
  );
}
