/** What the engine finds under a straightedge laid by hand: asked again whenever it or the room changes. */
import { useEffect, useRef, useState } from "preact/hooks";
import { askEngine, clearDraft, documentFromRoom, documentTextOf, getDraft, setDraft, type Asked } from "../../../state";
import { distance, type Place } from "../../../drawing/camera";
import type { StraightedgeAnswer } from "../../../wire";
import { drawnLine, strokeOf } from "../../profile/useProfile";
import { edgeDraft, laidFromDraft, tapped, wholeEdge, type Edge, type Laid } from "./laid";

const REST_MS = 120; // the engine is asked once the finger rests
const SAME_STROKE = 1e-6; // mm

export interface EdgeNow {
  readonly laid: Laid | null;
  readonly edge: Edge | null;
  readonly asked: Asked<StraightedgeAnswer> | null;
  readonly lay: (laid: Laid) => void;
  readonly tap: (at: Place) => void;
  readonly draw: (from: Place, to: Place, reach: number) => void;
  readonly takeUp: () => void;
}

function useAnswer(room: string, edge: Edge | null): Asked<StraightedgeAnswer> | null {
  const text = documentTextOf(room).value;
  const [found, setFound] = useState<{ readonly of: string; readonly asked: Asked<StraightedgeAnswer> } | null>(null);
  const of = JSON.stringify(edge);
  useEffect(() => {
    if (!edge) return undefined;
    const rest = setTimeout(() => {
      const document = documentFromRoom(room);
      if (!document) return;
      void askEngine<StraightedgeAnswer>("straightedge", `straightedge:${room}`, { document, ...edge }).then((asked) => { if (asked.outcome !== "replaced") setFound({ of, asked }); });
    }, REST_MS);
    return () => clearTimeout(rest);
  }, [room, text, of]);
  return found?.of === of ? found.asked : null;
}

interface Stroke {
  readonly start: Place;
  readonly moves: "new" | "from" | "to";
}

export function useEdge(room: string): EdgeNow {
  const draft = edgeDraft(room);
  const laid = laidFromDraft(getDraft(draft));
  const edge = wholeEdge(laid);
  const asked = useAnswer(room, edge);
  const stroke = useRef<Stroke | null>(null);
  const lay = (next: Laid) => void setDraft(draft, JSON.stringify(next));
  const draw = (from: Place, to: Place, reach: number) => {
    const isSame = stroke.current !== null && distance(stroke.current.start, from) < SAME_STROKE;
    if (!isSame) stroke.current = { start: from, moves: strokeOf(edge, from, reach) };
    const line = drawnLine(edge, stroke.current?.moves ?? "new", from, to);
    const whole = ([x, y]: Place): Place => [Math.round(x), Math.round(y)];
    lay({ from: whole(line.from), to: whole(line.to) });
  };
  return { laid, edge, asked, lay, draw, tap: (at) => lay(tapped(laid, at)), takeUp: () => void clearDraft(draft) };
}
