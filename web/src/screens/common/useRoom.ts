/** Everything a room's screen looks at, in one place. */
import { planOf, readingsOf, roomOf, type PlanState, type Row } from "../../state";
import type { Plan } from "../../wire";
import type { RoomFields } from "./roomFigure";

export interface RoomView {
  readonly id: string;
  readonly fields: RoomFields;
  readonly readings: readonly Row<"reading">[];
  readonly state: PlanState;
  readonly plan: Plan | null;
}

/** Null for a room that is not on this phone. */
export function useRoom(id: string): RoomView | null {
  const row = roomOf(id);
  const state = planOf(id).value;
  const readings = readingsOf(id).value;
  // A plan of an earlier state says nothing once the room has problems: no figure is better than an old one.
  if (!row || row.fields.deleted === true) return null;
  return { id, fields: row.fields, readings, state, plan: state.status === "problems" ? null : state.plan };
}
