/** The room document: what the engine is told. Lengths mm, x to the right and y up, z up. */
import type { Fixture, InstrumentCheck, Mark, Opening, Outline, Point, Setup, Stage } from "./records";

export interface DocumentReading {
  readonly id: string;
  readonly down: number;
  readonly at?: Point;
  readonly mark?: string;
  readonly setup?: string;
  readonly stage?: Stage;
  readonly taken_at?: string;
  readonly sight?: number;
  /** As it was typed, so that a slip can be told from its digits. */
  readonly as_typed?: string;
}

/** Groups of choices are nested as the contract says; what was never chosen is left to the engine's defaults. */
export interface RoomDocument {
  readonly document: 1;
  readonly outline: Outline;
  readonly readings: readonly DocumentReading[];
  readonly openings?: readonly Opening[];
  readonly fixtures?: readonly Fixture[];
  readonly setups?: readonly Setup[];
  readonly marks?: readonly Mark[];
  readonly instrument_checks?: readonly InstrumentCheck[];
  readonly adjustment?: Readonly<Record<string, unknown>>;
  readonly bed?: Readonly<Record<string, unknown>>;
  readonly rails?: Readonly<Record<string, unknown>>;
  readonly mix?: Readonly<Record<string, unknown>>;
  readonly curing?: Readonly<Record<string, unknown>>;
  readonly joints?: Readonly<Record<string, unknown>>;
  readonly supplies?: Readonly<Record<string, unknown>>;
  /** Only where the person may see what things cost. */
  readonly prices?: Readonly<Record<string, unknown>>;
  readonly filling?: Readonly<Record<string, unknown>>;
  readonly checks?: readonly Readonly<Record<string, unknown>>[];
  readonly truings?: readonly Readonly<Record<string, unknown>>[];
  readonly batches?: readonly Readonly<Record<string, unknown>>[];
  readonly stoppages?: readonly Readonly<Record<string, unknown>>[];
  readonly placements?: readonly Readonly<Record<string, unknown>>[];
  readonly flatness?: Readonly<Record<string, unknown>>;
  readonly gaps?: readonly Readonly<Record<string, unknown>>[];
  readonly height_lines?: readonly Readonly<Record<string, unknown>>[];
  readonly touches?: readonly Readonly<Record<string, unknown>>[];
  readonly logs?: readonly Readonly<Record<string, unknown>>[];
  readonly forecast?: readonly Readonly<Record<string, unknown>>[];
  readonly ticks?: readonly Readonly<Record<string, unknown>>[];
  readonly climate?: readonly Readonly<Record<string, unknown>>[];
}
