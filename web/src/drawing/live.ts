/** The floor as it stands while it is filled, in room coordinates (mm). */
import type { Place } from "./camera";

export type LiveState = "waiting" | "filling" | "placed" | "screeded" | "packed";

export interface SceneLiveSection {
  readonly id: string;
  readonly polygon: readonly Place[];
  readonly label: string;
  readonly state: LiveState;
  /** Still open, and cut off from the way out by fresh bed. */
  readonly isTrapped: boolean;
}

export interface SceneLive {
  readonly sections: readonly SceneLiveSection[];
  readonly rails: readonly { readonly id: string; readonly from: Place; readonly to: Place; readonly isSet: boolean }[];
  /** Where the bed ends with nothing beside it. */
  readonly edges: readonly { readonly id: string; readonly from: Place; readonly to: Place }[];
  /** Grooves to fill and pack now. */
  readonly channels: readonly { readonly from: Place; readonly to: Place }[];
  /** Where the mixer stands in the room; null where it stands outside. */
  readonly mixer: Place | null;
}
