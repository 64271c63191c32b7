/** How far a tap moves a rail, and what that is on the screen. */
import type { Place } from "../../../drawing/camera";
import { depthText } from "../../../units";
import { reader, type WordKey } from "../../../words";
import { wayOf } from "./lines";
import type { RailLine } from "../../../wire";

export type Pace = "coarse" | "fine";

const STEPS = { imperial: { coarse: 25.4, fine: 3.175 }, metric: { coarse: 25, fine: 2 } } as const;

/** mm: an inch and an eighth, or 25 mm and 2. */
export function stepOf(pace: Pace): number {
  return STEPS[reader.value.units][pace];
}

export function stepText(pace: Pace): string {
  return depthText(stepOf(pace), reader.value);
}

type Arrow = "left" | "right" | "up" | "down";

const SIGNS: Readonly<Record<Arrow, string>> = { left: "\u2190", right: "\u2192", up: "\u2191", down: "\u2193" };
const WORDS = { left: "lay.left", right: "lay.right", up: "lay.up", down: "lay.down" } as const satisfies Record<Arrow, WordKey>;

/** Which way on the drawing, nearest to what it is in the room. */
function arrowOf([x, y]: Place): Arrow {
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? "right" : "left";
  return y > 0 ? "up" : "down";
}

export interface Side {
  /** 1 for the rail's left, -1 for its right. */
  readonly sign: 1 | -1;
  readonly arrow: string;
  readonly words: (typeof WORDS)[Arrow];
  readonly key: string;
}

const KEYS: Readonly<Record<Arrow, string>> = { left: "ArrowLeft", right: "ArrowRight", up: "ArrowUp", down: "ArrowDown" };

/** The two sides a rail can be moved to: first the one to the left or down on the drawing, then the other. */
export function sidesOf(line: RailLine): readonly [Side, Side] {
  const [ux, uy] = wayOf(line);
  const side = (sign: 1 | -1): Side => {
    const arrow = arrowOf([-uy * sign, ux * sign]);
    return { sign, arrow: SIGNS[arrow], words: WORDS[arrow], key: KEYS[arrow] };
  };
  const [left, right] = [side(1), side(-1)];
  const isFirst = left.key === "ArrowLeft" || left.key === "ArrowDown";
  return isFirst ? [left, right] : [right, left];
}
