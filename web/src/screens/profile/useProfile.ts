/** A line drawn over the floor, and the profile along it, asked of the engine whenever the line or the room changes. */
import { useEffect, useRef, useState } from "preact/hooks";
import { distance, type Place } from "../../drawing/camera";
import type { SceneCut } from "../../drawing/scene";
import { askEngine, documentFromRoom, documentTextOf, type Asked } from "../../state";
import type { ProfileAnswer } from "../../wire";

const REST_MS = 120; // the engine is asked once the finger rests
const SHORTEST = 50; // mm: less is no line

export interface Line {
  readonly from: Place;
  readonly to: Place;
}

export interface Profile {
  readonly isOn: boolean;
  readonly cut: SceneCut | null;
  readonly asked: Asked<ProfileAnswer> | null;
  /** Where the finger stands, mm from the line's beginning. */
  readonly along: number;
  readonly setAlong: (along: number) => void;
  readonly turn: (isOn: boolean) => void;
  readonly draw: (from: Place, to: Place, reach: number) => void;
  readonly tap: (at: Place) => void;
}

/** A stroke that begins at an end of the line moves that end; any other makes a new line. */
export function strokeOf(line: Line | null, from: Place, reach: number): "new" | "from" | "to" {
  if (line && distance(line.to, from) <= reach) return "to";
  return line && distance(line.from, from) <= reach ? "from" : "new";
}

export function drawnLine(line: Line | null, stroke: "new" | "from" | "to", from: Place, to: Place): Line {
  if (stroke === "new" || !line) return { from, to };
  return stroke === "to" ? { ...line, to } : { ...line, from: to };
}

function placeOn({ from, to }: Line, along: number): Place {
  const share = along / (distance(from, to) || 1);
  return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
}

function useAnswer(room: string, line: Line | null): Asked<ProfileAnswer> | null {
  const text = documentTextOf(room).value;
  const [asked, setAsked] = useState<Asked<ProfileAnswer> | null>(null);
  useEffect(() => {
    if (!line || distance(line.from, line.to) < SHORTEST) { setAsked(null); return undefined; }
    const rest = setTimeout(() => {
      const document = documentFromRoom(room);
      if (document) void askEngine<ProfileAnswer>("profile", `profile:${room}`, { document, ...line }).then((answer) => { if (answer.outcome !== "replaced") setAsked(answer); });
    }, REST_MS);
    return () => clearTimeout(rest);
  }, [room, text, line]);
  return asked;
}

export function useProfile(room: string): Profile {
  const [isOn, setOn] = useState(false);
  const [line, setLine] = useState<Line | null>(null);
  const [pending, setPending] = useState<Place | null>(null);
  const [along, setAlong] = useState(0);
  const stroke = useRef<{ readonly start: Place; readonly moves: "new" | "from" | "to" } | null>(null);
  const asked = useAnswer(room, isOn ? line : null);
  const show = (next: Line) => { setLine(next); setPending(null); setAlong(distance(next.from, next.to) / 2); };
  const draw = (from: Place, to: Place, reach: number) => {
    const isSame = stroke.current && distance(stroke.current.start, from) < 1e-6;
    if (!isSame) stroke.current = { start: from, moves: strokeOf(line, from, reach) };
    show(drawnLine(line, stroke.current?.moves ?? "new", from, to));
  };
  const tap = (at: Place) => { if (pending) show({ from: pending, to: at }); else { setPending(at); setLine(null); } };
  const turn = (next: boolean) => { setOn(next); setLine(null); setPending(null); };
  const cut = line ? { ...line, at: placeOn(line, along) } : pending && { from: pending, to: pending, at: null };
  return { isOn, cut: isOn ? cut : null, asked, along, setAlong, turn, draw, tap };
}
