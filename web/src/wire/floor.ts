/** Records of work on the floor: rails set, read and bedded anew, batches, sections, the day book. Lengths mm. */

import type { Point, Typed } from "./records";

/** Strips of one length and thickness that are on hand. */
export interface StripsOnHand {
  readonly thickness: number;
  readonly length: number;
  readonly count?: number;
  readonly width?: number | null;
}

export interface RailLine {
  readonly id: string;
  readonly from: Point;
  readonly to: Point;
}

export interface PlacementFields {
  room_id: string;
  section: string;
  /** A place in the section: its id changes with the rails, its place does not. */
  at: Point;
  mixed_at: string;
  placed_at: string;
  screeded_at: string;
  channels_at: string;
  deleted: boolean;
}

/** One batch from the mixer; `size` is 1 for a full one. */
export interface BatchFields {
  room_id: string;
  mixed_at: string;
  section: string;
  /** A place in the section. */
  at: Point;
  placed_at: string;
  thrown_at: string;
  size: number;
  deleted: boolean;
}

/** A station that was set: where it stands and how high its ramp was then. */
export interface StationFields {
  room_id: string;
  rail: string;
  at: Point;
  shim: number;
  set_at: string;
  deleted: boolean;
}

/** What a level showed on one rail, or across two; + where the `to` end is high. */
export interface RailCheckFields {
  room_id: string;
  rail: string;
  /** The second rail where the level bridged two: `to` is on it. */
  rail_to: string;
  from: number;
  to: number;
  off: number;
  length: number;
  reversed_off: number;
  level: string;
  typed: string | Typed;
  taken_at: string;
  deleted: boolean;
}

export type EntryWhat = "trued" | "stopped" | "helper" | "note" | "habit" | "habit_off" | "form" | "milestone" | "rubbed" | "filled_up";

/**
 * A line of the room's day book. trued: a rail bedded anew, the `lie`-th lie of its strip · stopped, helper: from `at` until `until` · note: a text ·
 * habit, habit_off: a habit of the trade by `code`, done or silenced · form: a form set at the edge `code` · milestone: the bed was
 * looked at (`how`) by somebody (`by`) and let pass the milestone `code` · rubbed, filled_up: the bed was worked over at `place`.
 */
export interface EntryFields {
  room_id: string;
  what: EntryWhat;
  at: string;
  until: string;
  rail: string;
  from_raise: number;
  to_raise: number;
  lie: number;
  section: string;
  code: string;
  place: Point;
  by: string;
  how: string;
  text: string;
  deleted: boolean;
}
