/** The way rails run: the best, along the longest wall, across it, or by degrees. */
import { distance, type Place } from "../../../drawing/camera";

export type Way = "best" | "along" | "across" | "degrees";

const SAME_WAY = 0.05; // degrees

/** The way of the longest wall, degrees in [0, 180); 0 without walls. */
export function longestWallWay(corners: readonly Place[]): number {
  const walls = corners.map((from, index) => [from, corners[(index + 1) % corners.length] ?? from] as const);
  const [longest] = [...walls].sort((a, b) => distance(...b) - distance(...a));
  return longest ? halfTurn((Math.atan2(longest[1][1] - longest[0][1], longest[1][0] - longest[0][0]) * 180) / Math.PI) : 0;
}

/** Rails have no beginning to speak of: a way and its opposite are one, in [0, 180). */
export function halfTurn(degrees: number): number {
  const turned = ((degrees % 180) + 180) % 180;
  return 180 - turned < SAME_WAY / 2 ? 0 : turned;
}

function areSame(one: number, other: number): boolean {
  const apart = Math.abs(halfTurn(one) - halfTurn(other));
  return Math.min(apart, 180 - apart) < SAME_WAY;
}

/** Which of the ways a direction is. */
export function wayNamed(direction: number | "auto", longest: number): Way {
  if (direction === "auto") return "best";
  if (areSame(direction, longest)) return "along";
  return areSame(direction, longest + 90) ? "across" : "degrees";
}

/** The direction that a choice stands for; null where the degrees are to be typed. */
export function directionOf(way: Way, longest: number): number | "auto" | null {
  if (way === "best") return "auto";
  if (way === "degrees") return null;
  return halfTurn(way === "along" ? longest : longest + 90);
}
