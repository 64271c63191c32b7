/** New rails from a tap: through a place, or one made two. */
import type { Place } from "../../../drawing/camera";
import { DEFAULTS, type RailLine } from "../../../wire";
import { cornersOf } from "../../common/roomFigure";
import type { RoomView } from "../../common/useRoom";
import { freeName, offsetsOf, partedAt, wayFromDegrees, wayOf } from "./lines";
import { lengthOf } from "./shown";
import { spacingsOf, widestOf } from "./spacing";
import { railThrough, type OpenFloor } from "./through";
import { longestWallWay } from "./ways";

const CLEAR = 25; // mm between a strip and a wall's end or a fixture: as the engine proposes rails; common practice, no source

function floorOf({ fields }: RoomView): OpenFloor {
  const half = (fields["rails.strip.width"] ?? DEFAULTS["rails.strip.width"]) / 2;
  return {
    outline: cornersOf(fields.outline),
    cutouts: fields.outline?.cutouts ?? [],
    obstacles: (fields.fixtures ?? []).map(({ at, radius }) => ({ at, clear: (radius ?? 0) + half + CLEAR })),
    atEnds: half + CLEAR,
  };
}

/** The way the others run; without any, as the plan has it, else along the longest wall. */
function wayOfRails(room: RoomView, lines: readonly RailLine[]): Place {
  const [longest] = [...lines].sort((a, b) => lengthOf(b) - lengthOf(a));
  return longest ? wayOf(longest) : wayFromDegrees(room.plan?.rail_direction ?? longestWallWay(cornersOf(room.fields.outline)));
}

export interface Added {
  readonly lines: readonly RailLine[];
  /** The rail to take in hand. */
  readonly id: string;
}

/** The lines and one more through `at`, parallel to the others, as long as it can lie; null where none can. */
export function addedAt(room: RoomView, lines: readonly RailLine[], at: Place): Added | null {
  const ends = railThrough(floorOf(room), at, wayOfRails(room, lines));
  const id = freeName(lines);
  return ends && { lines: [...lines, { id, ...ends }], id };
}

/** The middle of the widest gap between neighbours; null where no two lie side by side. */
export function middleOfWidest(room: RoomView, lines: readonly RailLine[]): Place | null {
  const widest = widestOf(spacingsOf(lines));
  const middle: Place | null = widest && [(widest.from[0] + widest.to[0]) / 2, (widest.from[1] + widest.to[1]) / 2];
  return middle && railThrough(floorOf(room), middle, wayOfRails(room, lines)) ? middle : null;
}

/** The line parted beside `at`; null where one part would be too short. */
export function splitAt(lines: readonly RailLine[], line: RailLine, at: Place): Added | null {
  const parted = partedAt(lines, line.id, offsetsOf(line, at).along);
  return parted === lines ? null : { lines: parted, id: line.id };
}
