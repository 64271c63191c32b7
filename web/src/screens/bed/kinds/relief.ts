/** Requirements that cannot hold together: what a single tap changes so that the others can. */
import type { Fields, Held, Problem, Top } from "../../../wire";

/** A hair more than the engine asks for, so that rounding leaves nothing in the way. mm, or a ratio for falls. */
const HAIR = 1e-6;
const HELD = /^bed\.top\.holds\[(\d+)\]$/;

/** What changes in the room: the top itself, or a limit. */
export type Relief = Pick<Fields<"room">, "bed.top" | "bed.minimum_thickness" | "bed.maximum_thickness">;

/** Null where giving way at this one requirement alone helps nothing. */
export function reliefFor({ code, path, values }: Problem, top: Top): Relief | null {
  const { alone, limit } = values;
  if (typeof alone !== "number" || typeof limit !== "number") return null;
  if (code === "top_conflict_minimum") return { "bed.minimum_thickness": limit - alone - HAIR };
  if (code === "top_conflict_maximum") return { "bed.maximum_thickness": limit + alone + HAIR };
  if (top.kind !== "least_mortar") return null;
  if (code === "top_conflict_fall") return { "bed.top": { ...top, largest_fall: limit + alone + HAIR } };
  const n = heldIndex(path);
  const holds = top.holds ?? [];
  const held = holds[n];
  if (held === undefined) return null;
  return { "bed.top": { ...top, holds: holds.map((one, index) => (index === n ? letGo(held, code, limit, alone + HAIR) : one)) } };
}

/** A place that met what is there keeps its other side. */
function letGo(held: Held, code: string, limit: number, by: number): Held {
  const [low, high] = [held.low ?? (held.high == null ? limit : null), held.high ?? (held.low == null ? limit : null)];
  return code === "top_conflict_held_low" ? { ...held, low: limit - by, high } : { ...held, low, high: limit + by };
}

export function isConflict({ code }: Problem): boolean {
  return code.startsWith("top_conflict_");
}

/** Which hold a problem stands at; not a number where it stands at none. */
export function heldIndex(path: string): number {
  return Number(HELD.exec(path)?.[1] ?? Number.NaN);
}

const CONFLICTS = ["minimum", "maximum", "held_low", "held_high", "fall"] as const;
export type Conflict = (typeof CONFLICTS)[number] | `${(typeof CONFLICTS)[number]}_stuck`;

/** What conflicts, and whether giving there alone could help; null for a code that is newer than this screen. */
export function conflictOf({ code }: Problem): Conflict | null {
  const found = CONFLICTS.find((one) => code === `top_conflict_${one}` || code === `top_conflict_${one}_stuck`);
  if (found === undefined) return null;
  return code.endsWith("_stuck") ? `${found}_stuck` : found;
}
