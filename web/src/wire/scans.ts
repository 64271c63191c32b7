/** A dense scan on its way to readings: what the office tells while it reads, and at the end. */
import type { ProblemCode } from "./changes";
import type { components } from "./generated/service";

type Schemas = components["schemas"];

export type ScanReply = Schemas["ScanReply"];
export type ScanReport = Schemas["ScanReport"];
export type ScanItem = Schemas["ScanItem"];
export type ScanFlatness = Schemas["ScanFlatness"];
export type FlatCheck = Schemas["FlatCheck"];

/** What was scanned, and how it may be read: its unit, how it lies on the room, which way is up. */
export interface ScanWish {
  readonly stage: ScanReport["stage"];
  readonly unit: "auto" | ScanReport["unit"];
  readonly placing: "as_it_is" | "corner";
  readonly up: "z" | "y";
}

/** Of the stage, 0 to 1; `sending` is the way to the office. */
export interface ScanStep {
  readonly stage: Schemas["ScanProgress"]["stage"] | "sending";
  readonly done: number;
}

/** stopped: the person ended it. Any other: the office could not be reached, or said no in its own code. */
export type ScanOutcome =
  | { readonly outcome: "read"; readonly reply: ScanReply }
  | { readonly outcome: "stopped" }
  | { readonly outcome: ProblemCode | "offline"; readonly message: string; readonly problems: readonly ScanItem[] };
