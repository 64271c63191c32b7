/** Laying the rails out: where they run, what they leave to hand work, and what moving them breaks. */
import { useMemo, useState } from "preact/hooks";
import type { Place } from "../../../drawing/camera";
import { mayWrite } from "../../../state";
import { DEFAULTS, type RailLine } from "../../../wire";
import { t } from "../../../words";
import { Missing } from "../../common/Missing";
import { NoPlan } from "../../common/NoPlan";
import { PlanNotes } from "../../common/Notes";
import { RoomFrame } from "../../common/RoomFrame";
import { sayOnlyLooks } from "../../common/saving";
import { useAwake } from "../../common/useAwake";
import { useRoom, type RoomView } from "../../common/useRoom";
import { addedAt, middleOfWidest, splitAt } from "./adding";
import { breaksOf, isBroken, warnedRails } from "./breaks";
import { Choose } from "./Choose";
import { LayoutFigures } from "./Figures";
import { HandDeck } from "./HandDeck";
import { LayoutDrawing } from "./LayoutDrawing";
import { canPart } from "./lines";
import { Breaks, HandAreaList, RailList } from "./Lists";
import { Placing, type Mode } from "./Placing";
import { lengthOf, lineOfRail } from "./shown";
import { Tools } from "./Tools";
import { useLines, type Lines } from "./useLines";

/** mm that the longest straightedge on hand spans between its bearings. */
function reachOf({ fields }: RoomView): number {
  const edges = [fields["rails.straightedge"] ?? DEFAULTS["rails.straightedge"], ...(fields["rails.straightedges"] ?? [])];
  return Math.max(...edges) - 2 * (fields["rails.bearing"] ?? DEFAULTS["rails.bearing"]);
}

interface Working {
  readonly hand: RailLine | null;
  readonly mode: Mode | null;
  readonly refused: boolean;
  readonly lit: string | null;
  readonly setHand: (id: string | null) => void;
  readonly setMode: (mode: Mode | null) => void;
  readonly setLit: (id: string | null) => void;
  readonly onPlace: (at: Place) => void;
}

/** What is in hand, and what the next tap means. */
function useWorking(room: RoomView, laid: Lines): Working {
  const [taken, setTaken] = useState<string | null>(null);
  const [mode, setMode] = useState<Mode | null>(null);
  const [refused, setRefused] = useState(false);
  const [lit, setLit] = useState<string | null>(null);
  const hand = laid.lines.find(({ id }) => id === taken) ?? null;
  const begin = (to: Mode | null) => { setMode(to); setRefused(false); };
  const onPlace = (at: Place) => {
    const after = mode === "split" && hand ? splitAt(laid.lines, hand, at) : addedAt(room, laid.lines, at);
    setRefused(after === null);
    if (after === null) return;
    laid.change(() => after.lines);
    setTaken(after.id);
    setMode(null);
  };
  return { hand, mode: mode === "split" && !hand ? null : mode, refused, lit, setHand: setTaken, setMode: begin, setLit, onPlace };
}

/** Under the drawing: what the next tap means, the rail in hand, or the way to both. */
function Deck({ room, laid, working, breaks }: { room: RoomView; laid: Lines; working: Working; breaks: ReturnType<typeof breaksOf> }) {
  const { hand, mode, setMode, setHand, onPlace } = working;
  if (mode !== null) {
    const middle = mode === "add" ? middleOfWidest(room, laid.lines) : hand && middleOfLine(hand);
    return <Placing mode={mode} refused={working.refused} onMiddle={middle && (() => onPlace(middle))} onLeave={() => setMode(null)} />;
  }
  if (hand) {
    const own = breaks.filter(({ rail }) => rail !== null && lineOfRail(laid.lines, rail)?.id === hand.id);
    return <HandDeck laid={laid} line={hand} worst={own[0] ?? breaks.find(isBroken) ?? null} onSplit={() => setMode("split")} onDone={() => setHand(null)} />;
  }
  const add = () => { if (mayWrite.value) setMode("add"); else sayOnlyLooks(); };
  return (
    <div class="rail-deck">
      <p class="quiet" data-testid="lay-how">{t(laid.isPlaced ? "lay.how_placed" : "lay.how")}</p>
      <div class="row even">
        <button type="button" class="button" data-testid="add-rail" onClick={add}>{t("lay.add")}</button>
        {laid.isPlaced && <button type="button" class="button" data-testid="to-proposal" onClick={laid.toProposal}>{t("lay.to_proposal")}</button>}
      </div>
    </div>
  );
}

function middleOfLine(line: RailLine): Place | null {
  return canPart(line, lengthOf(line) / 2) ? [(line.from[0] + line.to[0]) / 2, (line.from[1] + line.to[1]) / 2] : null;
}

function LaidOut({ room }: { room: RoomView }) {
  const laid = useLines(room);
  const working = useWorking(room, laid);
  const { plan } = room;
  const breaks = useMemo(() => (plan ? breaksOf(plan) : []), [plan]);
  const warned = useMemo(() => warnedRails(breaks), [breaks]);
  const reach = reachOf(room);
  const drawing = (
    <LayoutDrawing
      room={room} laid={laid} warned={warned} hand={working.hand} lit={working.lit} reach={reach}
      onHand={working.setHand} onLit={working.setLit} onPlace={working.mode === null ? null : working.onPlace}
    />
  );
  return (
    <RoomFrame room={room} step="rails" part="layout" drawing={drawing}>
      <div class="stack">
        <PlanNotes state={room.state} />
        {laid.lines.length > 0 || plan ? <Deck room={room} laid={laid} working={working} breaks={breaks} /> : <NoPlan room={room} />}
        {plan && (
          <>
            <Breaks title={t("lay.broken")} breaks={breaks.filter(isBroken)} laid={laid} onHand={working.setHand} />
            <LayoutFigures plan={plan} reach={reach} />
            <Breaks title={t("lay.to_know")} breaks={breaks.filter((one) => !isBroken(one))} laid={laid} onHand={working.setHand} />
            <HandAreaList areas={plan.hand_areas} lit={working.lit} onLit={working.setLit} />
          </>
        )}
        <RailList laid={laid} hand={working.hand?.id ?? null} onHand={working.setHand} />
        {room.fields.outline && <Choose room={room} laid={laid} />}
        <Tools room={room} />
      </div>
    </RoomFrame>
  );
}

export function Layout({ id }: { id: string }) {
  useAwake();
  const room = useRoom(id);
  return room ? <LaidOut room={room} /> : <Missing />;
}
