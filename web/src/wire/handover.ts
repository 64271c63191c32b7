/** Records of the finished bed: what was measured on it, the temperatures it hardened at, what somebody signed. Lengths mm, °C. */

import type { Point, Typed } from "./records";

/** The rule that the bed is held against; `own` are the company's limits. */
export type Standard =
  | "ansi_a108_02" | "bs_8204_sr1" | "bs_8204_sr2" | "bs_8204_sr3" | "din_18202_2" | "din_18202_3" | "din_18202_4"
  | "aci_117_20_15" | "aci_117_25_20" | "aci_117_35_25" | "aci_117_45_35" | "aci_117_60_40" | "own";

/** The most that may stand open under a straightedge of one length. */
export interface GapLimit {
  readonly length: number;
  readonly gap: number;
}

/** What a wedge showed under a straightedge on the bed, which lay from one end to the other. */
export interface GapFields {
  room_id: string;
  from: Point;
  to: Point;
  gap: number;
  /** Where it stood open most. */
  at: Point;
  /** The straightedge was passed over the whole bed, and this was the worst it showed. */
  passed_over: boolean;
  typed: Typed;
  taken_at: string;
  deleted: boolean;
}

/** Heights along a straight line over the bed, equally far apart. */
export interface HeightLineFields {
  room_id: string;
  heights: readonly number[];
  spacing: number;
  from: Point;
  to: Point;
  typed: Typed;
  taken_at: string;
  deleted: boolean;
}

/** What a logger wrote: seconds after `start`, rising, and °C at each. */
export interface TemperatureLogFields {
  room_id: string;
  start: string;
  seconds: readonly number[];
  celsius: readonly number[];
  where: "bed" | "air";
  name: string;
  deleted: boolean;
}

/** A day foretold where the job is: its low and high, each at its time; %, km/h. */
export interface ForecastDayFields {
  job_id: string;
  low: number;
  high: number;
  low_at: string;
  high_at: string;
  humidity: number;
  wind: number;
  /** Where it is from; null: somebody typed it. */
  source: string;
  deleted: boolean;
}

/** A room signed off: who, when, and a dated copy of what was signed, with the hashes of engine and input. */
export interface SignOffFields {
  room_id: string;
  at: string;
  by: string;
  engine: string;
  engine_hash: string;
  inputs_hash: string;
  /** JSON: the document, and what the engine answered to it. */
  copy: string;
  note: string;
  deleted: boolean;
}
