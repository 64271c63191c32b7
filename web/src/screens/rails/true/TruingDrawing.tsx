/** The rails to lay a level on: a tap on one lays it along, on another one across; and what to raise and let down. */
import { useMemo } from "preact/hooks";
import { Drawing } from "../../../drawing/Drawing";
import type { ScenePoint } from "../../../drawing/scene";
import { preferences } from "../../../state";
import type { Plan, Rail } from "../../../wire";
import { markText } from "../../../units";
import { bareScene } from "../../common/roomFigure";
import { sceneRails } from "../../common/layers";
import type { RoomView } from "../../common/useRoom";
import { amountText, isToDo, placeOf } from "./correcting";
import { endsOf, railLength, type Entered } from "./reading";

const TOUCH_EVERY = 100; // mm along a rail
const AIR = 20; // px round the room while the keys leave little height

interface TruingDrawingProps {
  readonly room: RoomView;
  readonly entered: Entered | null;
  readonly onTap: (rail: Rail, at: number) => void;
}

function touchable({ rails }: Plan): readonly { readonly id: string; readonly at: readonly [number, number] }[] {
  return rails.flatMap((rail) => {
    const long = railLength(rail);
    const count = Math.max(1, Math.ceil(long / TOUCH_EVERY));
    return Array.from({ length: count + 1 }, (_, n) => {
      const share = n / count;
      const at = [rail.from[0] + (rail.to[0] - rail.from[0]) * share, rail.from[1] + (rail.to[1] - rail.from[1]) * share] as const;
      return { id: `${rail.id}@${share * long}`, at };
    });
  });
}

/** The ends of the level, by the numbers that the buttons have. */
function levelEnds(plan: Plan, entered: Entered): readonly ScenePoint[] {
  return (endsOf(entered, plan.rails) ?? []).map((at, n) => ({ id: `level-${n + 1}`, at, label: `${n + 1}`, kind: "wanting" }));
}

function arrows(plan: Plan): readonly ScenePoint[] {
  return plan.corrections.flatMap((correction, n): readonly ScenePoint[] => {
    const at = placeOf(plan, correction);
    return at && isToDo(correction) ? [{ id: `correction-${n}`, at, label: markText(amountText(correction)), kind: correction.raise < 0 ? "let_down" : "raise" }] : [];
  });
}

export function TruingDrawing({ room, entered, onTap }: TruingDrawingProps) {
  const { language, units } = preferences.value;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const { plan } = room;
  const touch = useMemo(() => (plan ? touchable(plan) : []), [plan]);
  if (!plan) return <Drawing scene={bare} name="truing" />;
  const held = new Set([entered?.rail, entered?.railTo]);
  const rails = sceneRails(plan.rails, new Map(), null).map((rail) => ({ ...rail, isCurrent: held.has(rail.id), stations: [] }));
  const points = entered ? levelEnds(plan, entered) : arrows(plan);
  const tapped = (id: string) => {
    const cut = id.lastIndexOf("@");
    const rail = plan.rails.find((one) => one.id === id.slice(0, cut));
    if (rail) onTap(rail, Number(id.slice(cut + 1)));
  };
  return <Drawing scene={{ ...bare, rails, points }} name="truing" onOpen={tapped} touch={touch} {...(entered ? { air: AIR } : {})} />;
}
