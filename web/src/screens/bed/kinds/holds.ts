/** Where the finished floor can be held: doorways and fixtures, and what is asked of each. */
import type { Fixture, Held, Opening } from "../../../wire";
import type { RoomFields } from "../../common/roomFigure";

export type HoldKind = "free" | "meet" | "between";

export interface HoldPlace {
  readonly id: string;
  readonly of: "opening" | "fixture";
  readonly fixture: Fixture["kind"] | null;
  /** What is there to meet, z; null where nobody knows. */
  readonly there: number | null;
}

const ofOpening = ({ id, adjoining_height }: Opening): HoldPlace => ({ id, of: "opening", fixture: null, there: adjoining_height ?? null });
const ofFixture = ({ id, kind, height }: Fixture): HoldPlace => ({ id, of: "fixture", fixture: kind, there: height ?? null });

/** Posts have no floor of their own to meet. */
export function holdPlaces(room: RoomFields): readonly HoldPlace[] {
  const fixtures = (room.fixtures ?? []).filter(({ kind }) => kind !== "post");
  return [...(room.openings ?? []).map(ofOpening), ...fixtures.map(ofFixture)];
}

export function heldAt(holds: readonly Held[], { id, of }: HoldPlace): Held | null {
  return holds.find((held) => held[of] === id) ?? null;
}

export function kindOfHold(held: Held | null): HoldKind {
  if (held === null) return "free";
  return held.low == null && held.high == null ? "meet" : "between";
}

/** The holds with one place's own replaced; null frees it. Their order is that of the places. */
export function withHold(holds: readonly Held[], place: HoldPlace, held: Held | null): readonly Held[] {
  const others = holds.filter((one) => one[place.of] !== place.id);
  return held === null ? others : [...others, held];
}

/** What a hold becomes when its kind is chosen: between begins at what is there, or at `otherwise`. */
export function begunHold(place: HoldPlace, kind: HoldKind, otherwise: number): Held | null {
  const named = place.of === "opening" ? { opening: place.id } : { fixture: place.id };
  if (kind === "free") return null;
  if (kind === "meet") return named;
  const at = place.there ?? otherwise;
  return { ...named, low: at, high: at };
}
