/** Setting and truing the rails: what was set, what a level showed, what was bedded anew, and lines as placed by hand. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Plan, RailLine } from "../wire";
import { act, edit, editRoom, type ActionOptions } from "./actions";
import { stationsOf } from "./records";

const SAME_PLACE = 1; // mm: a station stands where one was set

/** `rail:index`, as stations are named on screen. */
export function stationKey(rail: string, index: number): string {
  return `${rail}:${index}`;
}

/** A station of the plan that was set; `since` is how much its shim has grown since, mm. */
export interface SetStation {
  readonly ids: readonly string[];
  readonly since: number;
}

/** The plan's stations that were set, by key. A station counts where it stands: a rail dragged elsewhere is not set. Subscribes. */
export function setStationsOf(roomId: string, rails: Plan["rails"]): ReadonlyMap<string, SetStation> {
  const rows = stationsOf(roomId).value;
  const found = rails.flatMap((rail) => rail.stations.map((station, index): readonly [string, SetStation] | null => {
    const here = rows.filter(({ fields: { at } }) => at && Math.hypot(at[0] - station.at[0], at[1] - station.at[1]) <= SAME_PLACE);
    const last = here.at(-1);
    return last ? [stationKey(rail.id, index), { ids: here.map(({ id }) => id), since: station.shim - (last.fields.shim ?? station.shim) }] : null;
  }));
  return new Map(found.filter((one) => one !== null));
}

/** Set once more where it was set before: one step to undo. */
export async function setStation(roomId: string, { rail, at, shim }: { readonly rail: string; readonly at: readonly [number, number]; readonly shim: number }, before?: SetStation): Promise<void> {
  const made: Edit<"station"> = { kind: "station", id: uuidv7(), fields: { room_id: roomId, rail, at, shim, set_at: new Date().toISOString() } };
  await act([...removed(before), made]);
}

export function unsetStation(set: SetStation): Promise<void> {
  return act(removed(set));
}

function removed(set: SetStation | undefined): readonly Edit[] {
  return (set?.ids ?? []).map((id): Edit => ({ kind: "station", id, fields: { deleted: true } }));
}

/** The rails as a person placed them; null for the ones the engine proposes. */
export function placeRails(roomId: string, lines: readonly RailLine[] | null): Promise<void> {
  return editRoom(roomId, { "rails.lines": lines });
}

export type NewRailCheck = Omit<Fields<"rail_check">, "room_id" | "deleted"> & { readonly rail: string; readonly off: number };

export async function addRailCheck(roomId: string, check: NewRailCheck, options?: ActionOptions): Promise<string> {
  const id = uuidv7();
  const made: Edit<"rail_check"> = { kind: "rail_check", id, fields: { taken_at: new Date().toISOString(), ...check, room_id: roomId } };
  await act([made], options);
  return id;
}

export function editRailCheck(id: string, fields: Fields<"rail_check">, options?: ActionOptions): Promise<void> {
  return edit("rail_check", id, fields, options);
}

/** Rails that were bedded anew, each end moved by so much, mm: one step to undo. */
export async function trueRails(roomId: string, moves: readonly { readonly rail: string; readonly from_raise: number; readonly to_raise: number }[]): Promise<void> {
  const at = new Date().toISOString();
  await act(moves.map((move): Edit<"entry"> => ({ kind: "entry", id: uuidv7(), fields: { room_id: roomId, what: "trued", at, ...move } })));
}

