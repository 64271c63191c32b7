/**
 * The records that travel between phone and office: each is a flat map of fields, edited through changes.
 * Lengths mm, temperatures °C, times ISO 8601 with offset. Choices carry dotted names so that they merge one by one.
 */

import type { BatchFields, EntryFields, PlacementFields, RailCheckFields, RailLine, StationFields, StripsOnHand } from "./floor";
import type { ForecastDayFields, GapFields, GapLimit, HeightLineFields, SignOffFields, Standard, TemperatureLogFields } from "./handover";
import type { JobFields } from "./job";
import type { PricesFields, SuppliesFields, SupplyChoices } from "./supplies";

export type Point = readonly [number, number];
export type Point3 = readonly [number, number, number];
/** From one end to the other. */
export type Line = readonly [Point, Point];
export type Units = "imperial" | "metric";
export type Stage = "subfloor" | "bed";

export interface Wall {
  readonly length: number;
  /** Turn to the left after this wall, in degrees; negative is right. */
  readonly turn: number;
}

export interface Outline {
  readonly vertices?: readonly Point[];
  readonly walls?: readonly Wall[];
  readonly cutouts?: readonly (readonly Point[])[];
}

export interface Opening {
  readonly id: string;
  readonly wall: number;
  readonly from: number;
  readonly to: number;
  readonly adjoining_height?: number | null;
  readonly exit?: boolean;
  /** z of the underside of the door leaf. */
  readonly door_bottom?: number | null;
}

export interface Fixture {
  readonly id: string;
  readonly kind: "drain" | "flange" | "post";
  readonly at: Point;
  /** Other end of a linear drain, `at` being one. */
  readonly to?: Point | null;
  readonly radius?: number;
  readonly height?: number | null;
}

export type InstrumentKind = "laser" | "water_level" | "optical" | "straightedge";

/** One standing of an instrument. */
export interface Setup {
  readonly id: string;
  readonly name?: string;
  readonly kind?: InstrumentKind;
  readonly sigma?: number;
  /** What each metre of sight adds to `sigma`, mm. */
  readonly sigma_per_metre?: number;
  readonly instrument?: string;
  /** Where it stood; of a straightedge, its first end. */
  readonly at?: Point;
  /** z of its level line where that is known beforehand. */
  readonly line_height?: number | null;
}

export interface Instrument {
  readonly id: string;
  readonly name: string;
  readonly kind: InstrumentKind;
  readonly sigma?: number;
  readonly sigma_per_metre?: number;
}

export interface InstrumentCheck {
  readonly id: string;
  readonly kind: "two_peg" | "flip" | "rod";
  readonly instrument: string;
  readonly at: string;
  readonly accepted: boolean;
  readonly first?: Point;
  readonly second?: Point;
  readonly sights?: Point;
  readonly off?: number;
  readonly reversed_off?: number;
  readonly length?: number;
  readonly offset?: number;
}

export interface Mark {
  readonly id: string;
  readonly name?: string;
  readonly height?: number | null;
}

/** One place where the finished floor is held; without `low` and `high` it meets what is there. */
export interface Held {
  readonly opening?: string | null;
  readonly fixture?: string | null;
  readonly at?: Point | null;
  readonly low?: number | null;
  readonly high?: number | null;
}

export type Top =
  | { readonly kind: "level"; readonly height: number | null }
  | { readonly kind: "plane"; readonly through: readonly Point3[] }
  | { readonly kind: "least_mortar"; readonly holds?: readonly Held[]; readonly largest_fall?: number | null }
  | { readonly kind: "to_drain"; readonly drain: string; readonly fall: number; readonly perimeter?: number | null }
  | { readonly kind: "two_levels"; readonly line: Line; readonly left: number; readonly right: number; readonly ramp: number };

export type MilestoneName = "walk" | "tile" | "grout" | "light_traffic" | "heavy_traffic";

export interface MilestoneNeed {
  readonly milestone: MilestoneName;
  /** Equivalent age needed, hours at the reference temperature. */
  readonly needs: number;
}

/** What a person typed, kept beside the number it became: `{"outline.walls.0": "12' 3 1/2\""}`. */
export type Typed = Readonly<Record<string, string>>;

export interface RoomFields extends SupplyChoices {
  job_id: string;
  name: string;
  outline: Outline;
  openings: readonly Opening[];
  fixtures: readonly Fixture[];
  setups: readonly Setup[];
  marks: readonly Mark[];
  instruments: readonly Instrument[];
  instrument_checks: readonly InstrumentCheck[];
  "adjustment.datum": "fixed" | "free";
  /** Proposed places that somebody decided not to read. */
  "levels.skipped": readonly Point[];
  "bed.build": "unbonded" | "bonded";
  "bed.minimum_thickness": number;
  "bed.maximum_thickness": number;
  "bed.top": Top;
  "bed.chip_depth": number;
  "bed.covering.tile_thickness": number;
  "bed.covering.bond_thickness": number;
  "bed.covering.longest_edge": number;
  "rails.straightedge": number;
  "rails.bearing": number;
  "rails.inset": number;
  "rails.strip.thickness": number;
  "rails.strip.width": number;
  "rails.strip.length": number;
  "rails.overlap": number;
  "rails.station_spacing": number;
  "rails.direction": number | "auto";
  /** Strips on hand; none told: as many of `rails.strip` as it takes. */
  "rails.strips": readonly StripsOnHand[];
  /** Further straightedges on hand, by length. */
  "rails.straightedges": readonly number[];
  /** The rails as a person placed them; null for the ones proposed. */
  "rails.lines": readonly RailLine[];
  "rails.tolerance": number;
  "rails.wood": boolean;
  /** Where the mixer stands in the room; null where it stands outside. */
  "filling.mixer": Point;
  "filling.day_ends": string;
  "mix.cement": number;
  "mix.lime": number;
  "mix.sand": number;
  "mix.bag_mass": number;
  "mix.water_cement": number;
  "mix.air": number;
  "mix.waste": number;
  "mix.batch_volume": number;
  "mix.sand_moisture": number;
  "mix.sand_bulking": number;
  "joints.exposure": "indoors" | "sun_or_wet" | "outdoors";
  "joints.spacing": number;
  "joints.temperature_range": number;
  "joints.expansion": number;
  "joints.sealant_movement": number;
  "joints.slab_joints": readonly Line[];
  "curing.activation": number;
  "curing.reference": number;
  "curing.assumed": number;
  "curing.working_time": number;
  "curing.method": "equivalent_age" | "temperature_time";
  "curing.datum": number;
  "curing.early": number;
  "curing.late": number;
  "curing.forecast_doubt": number;
  "curing.follows": number;
  "curing.fresh_window": number;
  "curing.tile_when": "same_day" | "overnight";
  "curing.moisture_sensitive": boolean;
  "flatness.standard": Standard;
  /** The company's own limits, one a length of straightedge. */
  "flatness.own": readonly GapLimit[];
  "curing.milestones": readonly MilestoneNeed[];
  note: string;
  typed: Typed;
  deleted: boolean;
}

export interface ReadingFields {
  room_id: string;
  setup: string;
  /** mm below the set-up's level line: the larger number is the lower spot. */
  down: number;
  at: Point;
  mark: string;
  stage: Stage;
  typed: string;
  taken_at: string;
  /** The earlier reading that this one corrects. */
  supersedes: string;
  /** Length of the sight, mm. */
  sight: number;
  note: string;
  deleted: boolean;
}

export interface ClimateFields {
  room_id: string;
  at: string;
  bed: number;
  air: number;
  humidity: number;
  wind: number;
  forecast: boolean;
  deleted: boolean;
}

/** A photo of a room, or of one reading in it. The picture travels apart, by its hash (SHA-256, hex). */
export interface PhotoFields {
  room_id: string;
  hash: string;
  media_type: "image/jpeg" | "image/png" | "image/webp";
  /** Pixels. */
  width: number;
  height: number;
  /** Bytes. */
  size: number;
  note: string;
  taken_at: string;
  reading_id: string;
  /** The line of the day book it belongs to. */
  entry_id: string;
  deleted: boolean;
}

/** A top of bed that was thought of for a room. A chosen one says when and by whom. */
export interface AlternativeFields {
  room_id: string;
  name: string;
  top: Top;
  note: string;
  chosen_at: string;
  chosen_by: string;
  deleted: boolean;
}

export interface FieldsByKind {
  job: JobFields;
  room: RoomFields;
  reading: ReadingFields;
  placement: PlacementFields;
  batch: BatchFields;
  station: StationFields;
  rail_check: RailCheckFields;
  entry: EntryFields;
  climate: ClimateFields;
  photo: PhotoFields;
  alternative: AlternativeFields;
  gap: GapFields;
  height_line: HeightLineFields;
  temperature_log: TemperatureLogFields;
  forecast_day: ForecastDayFields;
  sign_off: SignOffFields;
  prices: PricesFields;
  supplies: SuppliesFields;
}

export type Kind = keyof FieldsByKind;
export const KINDS: readonly Kind[] = [
  "job", "room", "reading", "placement", "batch", "station", "rail_check", "entry", "climate", "photo", "alternative",
  "gap", "height_line", "temperature_log", "forecast_day", "sign_off", "prices", "supplies",
];

/** Some or all fields of a record; null stands for a field that was emptied. */
export type Fields<K extends Kind> = { readonly [P in keyof FieldsByKind[K]]?: FieldsByKind[K][P] | null };
export type AnyFields = Readonly<Record<string, unknown>>;
