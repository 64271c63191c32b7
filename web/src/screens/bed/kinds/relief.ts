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
  const n = Number(HELD.exec(path)?.[1] ?? Number.NaN);
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
