/** Setting and truing the rails: what was set, what a level showed, what was bedded anew, and lines as placed by hand. */
import { uuidv7 } from "uuidv7";
import type { Edit, Fields, Plan, Point, RailLine, Row } from "../wire";
import { act, edit, editRoom, type ActionOptions } from "./actions";
import { entryMade } from "./filling";
import { peekRow, stationsOf } from "./records";

const SAME_PLACE = 1; // mm: a station stands where one was set

/** `rail:index`, as stations are named on screen. */
export function stationKey(rail: string, index: number): string {
  return `${rail}:${index}`;
}

/** A station of the plan that was set; `since` is how much its shim has grown since, mm. */
export interface SetStation {
  /** The records of it, the newest last: several where two phones set it without knowing of each other. */
  readonly ids: readonly string[];
  readonly since: number;
}

type SetStations = ReadonlyMap<string, SetStation>;
type Rows = readonly Row<"station">[];
const NONE_SET: SetStations = new Map();
/** By the plan's rails, which are one room's: several screens ask with every drawing. */
const found = new WeakMap<Plan["rails"], { readonly rows: Rows; readonly set: SetStations }>();

/** The plan's stations that were set, by key. A station counts where it stands: a rail dragged elsewhere is not set. Subscribes. */
export function setStationsOf(roomId: string, rails: Plan["rails"]): SetStations {
  const rows = stationsOf(roomId).value;
  if (rows.length === 0 || rails.length === 0) return NONE_SET;
  const known = found.get(rails);
  if (known?.rows === rows) return known.set;
  const set = setStationsFrom(rows, rails);
  found.set(rails, { rows, set });
  return set;
}

/** The same from rows alone, as of a copy that was signed. */
export function setStationsFrom(rows: Rows, rails: Plan["rails"]): SetStations {
  const set = new Map<string, SetStation>();
  for (const rail of rails)
    for (const [index, { at, shim }] of rail.stations.entries()) {
      const here = rows.filter(({ fields }) => fields.at && isSamePlace(fields.at, at));
      const last = here.at(-1)?.fields;
      if (last) set.set(stationKey(rail.id, index), { ids: here.map(({ id }) => id), since: shim - (last.shim ?? shim) });
    }
  return set;
}

function isSamePlace([x, y]: Point, [otherX, otherY]: readonly [number, number]): boolean {
  return Math.hypot(x - otherX, y - otherY) <= SAME_PLACE;
}

/** What a person set: on which rail, where, and the ramp's height then. */
interface Setting {
  readonly rail: string;
  readonly at: Point;
  readonly shim: number;
}

/** A station is set now. Where one was set `before`, that record tells the new height: one step to undo in either case. */
export async function setStation(roomId: string, setting: Setting, before?: SetStation): Promise<void> {
  const last = peekRow("station", before?.ids.at(-1) ?? "");
  const set_at = new Date().toISOString();
  const made: Edit<"station"> = { kind: "station", id: uuidv7(), fields: { room_id: roomId, ...setting, set_at } };
  await act([last === undefined ? made : { ...made, id: last.id, fields: { ...changed(last.fields, setting), set_at } }]);
}

/** The place stays as it was: it is the same within a millimetre. */
function changed(before: Fields<"station">, { rail, shim }: Setting): Fields<"station"> {
  return { shim, ...(before.rail === rail ? {} : { rail }) };
}

/** A station is not set any more, whoever set it. */
export function unsetStation({ ids }: SetStation): Promise<void> {
  return act(ids.map((id): Edit => ({ kind: "station", id, fields: { deleted: true } })));
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

/** A lie of a rail's strip that was bedded anew: how much each of its ends was raised, mm. */
export interface Move {
  readonly rail: string;
  readonly lie: number;
  readonly from_raise: number;
  readonly to_raise: number;
}

/** Rails that were bedded anew: one step to undo. */
export async function trueRails(roomId: string, moves: readonly Move[]): Promise<void> {
  const at = new Date().toISOString();
  if (moves.length > 0) await act(moves.map((move) => entryMade(roomId, { what: "trued", at, ...move })));
}
