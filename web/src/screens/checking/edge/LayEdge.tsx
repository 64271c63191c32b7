/** A straightedge laid by hand: two taps on the drawing or its ends in figures; what stands under it, and what a wedge shows. */
import { useState } from "preact/hooks";
import type { Place } from "../../../drawing/camera";
import { Drawing } from "../../../drawing/Drawing";
import type { Scene } from "../../../drawing/scene";
import { mayWrite } from "../../../state";
import { errorText, lengthText } from "../../../units";
import type { Flatness, StraightedgeAnswer } from "../../../wire";
import { reader, t } from "../../../words";
import { Figure } from "../../common/Figure";
import { flatnessOf, gapText, ruleText, type FlatnessView } from "../../common/flatness";
import { flatFill } from "../../common/flatnessLayers";
import { explained } from "../../common/ownExplanations";
import { Missing } from "../../common/Missing";
import { Cautions, NoAnswer } from "../../common/Notes";
import { RoomFrame } from "../../common/RoomFrame";
import { bareScene, cornersOf } from "../../common/roomFigure";
import { useAwake } from "../../common/useAwake";
import { useRoom, type RoomView } from "../../common/useRoom";
import { ValueField } from "../../common/ValueField";
import type { Floor } from "./inRoom";
import { lengthOf, type Edge } from "./laid";
import { Offered } from "./Offered";
import { laidWhereOpen, PassOver, passedLength } from "./PassOver";
import { UnderEdge } from "./UnderEdge";
import { useEdge, type EdgeNow } from "./useEdge";
import { Wedge } from "./Wedge";

function sceneOf(room: RoomView, flatness: Flatness | null, now: EdgeNow): Scene {
  const { laid } = now;
  const cut = laid && { from: laid.from, to: laid.to ?? laid.from, at: null };
  const bare = bareScene(room.fields);
  return flatness ? { ...bare, fill: flatFill(flatness), cut } : { ...bare, cut };
}

/** The ends in figures, for whoever does not tap the drawing. */
function Ends({ room, edge, lay }: { room: string; edge: Edge; lay: EdgeNow["lay"] }) {
  const field = (end: "from" | "to", index: 0 | 1) => {
    const place = edge[end];
    const set = (mm: number) => lay({ ...edge, [end]: index === 0 ? [mm, place[1]] : [place[0], mm] });
    const label = t(index === 0 ? "checking.end_across" : "checking.end_up", { end: end === "from" ? "A" : "B" });
    return <ValueField name={`${room}:edge-${end}-${index}`} label={label} shown={lengthText(place[index], reader.value)} measure="length" signed onValue={set} />;
  };
  return <div class="given-answers ends">{field("from", 0)}{field("from", 1)}{field("to", 0)}{field("to", 1)}</div>;
}

const NOTHING_EXPLAINED = { explanations: {} };

/** Where the plan explains the limit: at the check that has the same. */
function limitPath(plan: RoomView["plan"], limit: number | null): string {
  return `flatness.checks[${plan?.flatness?.checks.findIndex((check) => check.limit === limit) ?? -1}].limit`;
}

/** A straightedge that rocks on a hump touches it alone. */
function gapNote({ gap, hump, profile }: StraightedgeAnswer): string {
  if (gap) return t("checking.plus_minus", { sigma: errorText(gap.sigma, reader.value) });
  if (hump) return "";
  return t(profile.length === 0 ? "checking.no_bed_there" : "checking.touches");
}

function Found({ answer, plan }: { answer: StraightedgeAnswer; plan: RoomView["plan"] }) {
  const { gap, hump, limit, length } = answer;
  const made = gap ? { explanation: explained("straightedge_gap", "bed_surface", { straightedge: length, error: gap.sigma }) } : {};
  return (
    <>
      <div class="figures">
        <Figure label={t("checking.computed")} value={gap ? gapText(gap.gap) : t("checking.none")} note={gapNote(answer)} plan={NOTHING_EXPLAINED} path="flatness.straightedge" {...made} />
        {hump && <Figure label={t("checking.hump")} value={gapText(hump.gap)} note={t("checking.plus_minus", { sigma: errorText(hump.sigma, reader.value) })} plan={NOTHING_EXPLAINED} path="flatness.straightedge.hump" explanation={explained("straightedge_hump", "bed_surface", { straightedge: length, error: hump.sigma })} />}
        <Figure label={t("checking.limit_name")} value={limit === null ? t("checking.none") : gapText(limit)} note={limit === null ? t("checking.no_limit") : ""} plan={plan ?? NOTHING_EXPLAINED} path={limitPath(plan, limit)} />
      </div>
      {answer.profile.length > 0 && <UnderEdge answer={answer} />}
      <Cautions cautions={answer.cautions} />
    </>
  );
}

function Under({ room, now, view }: { room: RoomView; now: EdgeNow; view: FlatnessView | null }) {
  const { edge, asked } = now;
  if (!edge) return <p class="notice" role="status">{t(now.laid ? "checking.tap_second" : "checking.tap_first")}</p>;
  const answer = asked?.outcome === "answered" ? asked.answer : null;
  return (
    <>
      <Wedge room={room.id} edge={edge} answer={answer} outdated={new Set(view?.flatness.stale ?? [])} />
      {answer && <Found answer={answer} plan={view?.plan ?? room.plan} />}
      {asked && asked.outcome !== "replaced" && asked.outcome !== "answered" && <NoAnswer asked={asked} />}
      {!asked && <p class="notice" role="status">{t("engine.computing")}</p>}
    </>
  );
}

/** What a tap or a finger does: lays its ends, or tells where the one that was passed over the bed stood open most. */
function useOpen(room: string, floor: Floor, now: EdgeNow) {
  const length = passedLength(room);
  const [open, setOpen] = useState<{ readonly at: Place; readonly edge: Edge } | null>(null);
  const [isBeside, setBeside] = useState(false);
  const tap = (at: Place) => {
    if (length === null) { now.tap(at); return; }
    const whole: Place = [Math.round(at[0]), Math.round(at[1])];
    const edge = laidWhereOpen(room, whole, length, floor);
    setOpen(edge && { at: whole, edge });
    setBeside(edge === null);
  };
  return { length, open, isBeside, tap, close: () => setOpen(null) };
}

export function LayEdge({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  const now = useEdge(id);
  const [isByHand, setByHand] = useState(true);
  const floor: Floor = { outline: cornersOf(room?.fields.outline), cutouts: room?.fields.outline?.cutouts ?? [] };
  const { length, open, isBeside, tap, close } = useOpen(id, floor, now);
  if (!room) return <Missing />;
  const view = flatnessOf(room);
  const { edge } = now;
  const scene = sceneOf(room, view?.flatness ?? null, now);
  const drawing = <Drawing scene={scene} name="edge" touch={[]} onPlace={tap} onStroke={isByHand && length === null ? now.draw : undefined} />;
  if (length !== null) {
    return (
      <RoomFrame room={room} step="checking" part="edge" drawing={drawing}>
        <PassOver room={id} length={length} floor={floor} open={open} isBeside={isBeside} onClose={close} />
      </RoomFrame>
    );
  }
  return (
    <RoomFrame room={room} step="checking" part="edge" drawing={drawing}>
      <div class="stack">
        {edge && <h3 data-testid="edge-length">{t("checking.laid", { rule: ruleText(lengthOf(edge)) })}</h3>}
        <Under room={room} now={now} view={view} />
        <Offered flatness={view?.flatness ?? null} floor={floor} edge={edge} lay={now.lay} />
        {edge && <Ends room={id} edge={edge} lay={now.lay} />}
        <button type="button" class="button wide" data-testid="edge-hold" aria-pressed={!isByHand} onClick={() => setByHand(!isByHand)}>{t("checking.move_drawing")}</button>
        {edge && mayWrite.value && <button type="button" class="button wide" data-testid="edge-up" onClick={now.takeUp}>{t("checking.take_up")}</button>}
      </div>
    </RoomFrame>
  );
}
