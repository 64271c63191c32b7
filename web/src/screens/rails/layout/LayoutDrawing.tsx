/** The drawing that rails are laid out on: a tap takes one in hand, a finger moves it or draws out an end. */
import { useMemo, useState } from "preact/hooks";
import type { Place } from "../../../drawing/camera";
import { Drawing } from "../../../drawing/Drawing";
import { isInside } from "../../../drawing/figure";
import type { Grip } from "../../../drawing/gestures";
import { holdAt, type Hold } from "../../../drawing/handles";
import type { Scene, SceneSpacing } from "../../../drawing/scene";
import { preferences } from "../../../state";
import { lengthText, markText } from "../../../units";
import type { RailLine } from "../../../wire";
import { reader } from "../../../words";
import { sceneHandAreas } from "../../common/layers";
import { bareScene } from "../../common/roomFigure";
import { fallsOf } from "../../common/topLayers";
import type { RoomView } from "../../common/useRoom";
import { inSteps, lengthened, lineAt, movedAcross, offsetsOf, withLine } from "./lines";
import { stepOf } from "./moves";
import { drawnRails, lineOfRail } from "./shown";
import { spacingsOf, type Spacing } from "./spacing";
import type { Lines } from "./useLines";

const AIR = 44; // px round the room, where handles stand off the ends of rails

interface LayoutDrawingProps {
  readonly room: RoomView;
  readonly laid: Lines;
  readonly warned: ReadonlySet<string>;
  readonly hand: RailLine | null;
  readonly lit: string | null;
  /** mm that the longest straightedge spans. */
  readonly reach: number;
  readonly onHand: (id: string | null) => void;
  readonly onLit: (id: string | null) => void;
  /** Given while a tap means a place: for a new rail, or where one is to be parted. */
  readonly onPlace: ((at: Place) => void) | null;
}

/** The line as it lies while a finger has moved from one place to another. */
function heldLine(line: RailLine, hold: Hold, from: Place, to: Place): RailLine {
  const [begun, now] = [offsetsOf(line, from), offsetsOf(line, to)];
  const step = stepOf("fine");
  if (hold === "body") return movedAcross(line, inSteps(now.off - begun.off, step));
  const outwards = hold === "to" ? now.along - begun.along : begun.along - now.along;
  return lengthened(line, hold, inSteps(outwards, step));
}

function sceneSpacing({ from, to, gap }: Spacing, reach: number): SceneSpacing {
  const isTooWide = gap > reach + 1;
  return { from, to, text: markText(lengthText(gap, reader.value)) + (isTooWide ? " !" : ""), isTooWide };
}

/** What stays as it is while a rail is dragged. */
function useStill({ room, lit }: LayoutDrawingProps): Scene {
  const { language, units } = preferences.value;
  const bare = useMemo(() => bareScene(room.fields), [room.fields, language, units]);
  const falls = useMemo(() => room.plan && { ...fallsOf(room.plan), falls: [] }, [room.plan]);
  const handAreas = useMemo(() => sceneHandAreas(room.plan?.hand_areas ?? [], lit), [room.plan, lit]);
  return useMemo(() => ({ ...bare, falls, handAreas }), [bare, falls, handAreas]);
}

export function LayoutDrawing(props: LayoutDrawingProps) {
  const { laid, warned, hand, reach, onHand, onLit, onPlace } = props;
  const [held, setHeld] = useState<RailLine | null>(null);
  const still = useStill(props);
  const lines = held ? withLine(laid.lines, held) : laid.lines;
  const rails = drawnRails({ lines, told: laid.told, rails: laid.rails, hand: hand?.id ?? null, warned });
  const scene = { ...still, rails, spacings: spacingsOf(rails).map((one) => sceneSpacing(one, reach)) };
  const grab = (from: Place, scale: number): Grip | null => {
    const hold = hand && holdAt(hand.from, hand.to, from, scale);
    if (!hand || !hold) return null;
    return {
      onMove: (to) => setHeld(heldLine(hand, hold, from, to)),
      onDrop: (to) => { setHeld(null); laid.change((before) => withLine(before, heldLine(hand, hold, from, to))); },
      onLeave: () => setHeld(null),
    };
  };
  const tapped = (at: Place, near: number) => {
    if (onPlace) {
      onPlace(at);
      return;
    }
    const rail = lineAt(rails, at, near);
    const area = rail ? null : still.handAreas.find(({ polygon }) => isInside(polygon, at)) ?? null;
    onLit(area?.id ?? null);
    onHand(rail && (lineOfRail(laid.lines, rail.id)?.id ?? null));
  };
  return <Drawing scene={scene} name="layout" air={AIR} onPlace={tapped} {...(hand && !onPlace ? { onGrab: grab } : {})} />;
}
