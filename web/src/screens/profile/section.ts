/** A profile as it is drawn: how much taller than long, where each height comes to lie, what stands at a place of the line. */
import type { Place, Window } from "../../drawing/camera";
import type { ProfileAnswer, ProfilePoint } from "../../wire";

const ROUND_TIMES = [1, 2, 5, 10, 20, 50, 100, 200, 500];
const SIDE = 14; // px free at both ends
const HEAD = 16; // px free above and below
const LEAST_RISE = 1; // mm: a dead flat floor is not drawn as a cliff

export interface Section {
  /** How many times as large heights are drawn as lengths. */
  readonly times: number;
  /** px of a place along the line and a height. */
  readonly at: (along: number, z: number) => Place;
  /** The place along the line under a px. */
  readonly alongAt: (x: number) => number;
}

export function sectionOf(answer: ProfileAnswer, window: Window): Section {
  const heights = answer.runs.flat().flatMap(({ subfloor, top }) => [subfloor, top]);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const across = (window.width - 2 * SIDE) / answer.length;
  const room = (window.height - 2 * HEAD) / Math.max(high - low, LEAST_RISE);
  const times = ROUND_TIMES.filter((one) => one * across <= room).at(-1) ?? 1;
  const middle = (low + high) / 2;
  return {
    times,
    at: (along, z) => [SIDE + along * across, window.height / 2 - (z - middle) * across * times],
    alongAt: (x) => Math.min(answer.length, Math.max(0, (x - SIDE) / across)),
  };
}

export interface Cut {
  readonly subfloor: number;
  readonly top: number;
  readonly thickness: number;
}

/** What stands at a place of the line; null off the floor. Between two points of a run everything is straight. */
export function cutAt({ runs }: ProfileAnswer, along: number): Cut | null {
  for (const run of runs) {
    const after = run.findIndex((point, index) => index > 0 && point.along >= along);
    const [a, b] = [run[after - 1], run[after]];
    if (a && b && a.along <= along) return between(a, b, along);
  }
  return null;
}

function between(a: ProfilePoint, b: ProfilePoint, along: number): Cut {
  const share = b.along === a.along ? 0 : (along - a.along) / (b.along - a.along);
  const mixed = (from: number, to: number) => from + (to - from) * share;
  return { subfloor: mixed(a.subfloor, b.subfloor), top: mixed(a.top, b.top), thickness: mixed(a.thickness, b.thickness) };
}
