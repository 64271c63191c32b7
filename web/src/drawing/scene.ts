/** What is on the drawing, in room coordinates (mm). Screens say what; the sheet says how it looks. */
import type { Band } from "./bands";
import type { Place } from "./camera";
import type { SceneLive } from "./live";

export type PointKind = "proposed" | "skipped" | "current" | "instrument" | "read" | "high" | "low" | "estimated" | "wanting" | "suspect" | "too_thin" | "too_thick" | "chip" | "raise" | "let_down";

export interface ScenePoint {
  readonly id: string;
  readonly at: Place;
  readonly label: string;
  readonly kind: PointKind;
}

export interface SceneDoorway {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  readonly isExit: boolean;
}

export interface SceneFixture {
  readonly id: string;
  readonly at: Place;
  readonly kind: "drain" | "flange" | "post";
  readonly radius: number;
}

export interface SceneStation {
  readonly at: Place;
  readonly label: string;
  readonly state: "waiting" | "current" | "set";
}

export interface SceneRail {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  readonly isCurrent: boolean;
  readonly stations: readonly SceneStation[];
  /** Given while it is taken in hand: its two ends have handles. */
  readonly isInHand?: boolean;
  /** True where it breaks something. */
  readonly warns?: boolean;
}

export type HandKind = "beside_wall" | "rail_end" | "alcove" | "behind_fixture" | "doorway" | "narrow" | "between";

/** A place that no pair of rails serves. */
export interface SceneHandArea {
  readonly id: string;
  readonly at: Place;
  readonly polygon: readonly Place[];
  readonly kind: HandKind;
  readonly isLit: boolean;
}

/** How far apart two neighbouring rails are, where that is written. */
export interface SceneSpacing {
  readonly from: Place;
  readonly to: Place;
  readonly text: string;
  readonly isTooWide: boolean;
}

export interface SceneSection {
  readonly id: string;
  readonly polygon: readonly Place[];
  readonly label: string;
}

export interface SceneLine {
  readonly label: string;
  readonly lines: readonly (readonly Place[])[];
}

/** A movement joint within the floor; the perimeter joint follows walls, cutouts and fixtures by itself. */
export interface SceneJoint {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  readonly kind: "field" | "slab";
}

export interface SceneNote {
  readonly at: Place;
  readonly text: string;
}

/** A panel between joints by its size; `across` is how much room there is for it, mm. */
export interface ScenePanel extends SceneNote {
  readonly across: number;
}

export interface SceneJoints {
  readonly lines: readonly SceneJoint[];
  readonly panels: readonly ScenePanel[];
}

/** One plane of the top: which way it falls (length 1, in the room) and how much; `way` is null where it is level. */
export interface SceneFall extends SceneNote {
  readonly way: Place | null;
}

export interface SceneFalls {
  /** Where planes of the top meet. */
  readonly creases: readonly (readonly [Place, Place])[];
  /** What matters most first. */
  readonly falls: readonly SceneFall[];
}

/** ground: low to high · bed: thin to thick · doubt: well known to hardly known · flat: below the designed top to above it. */
export type FillKind = "ground" | "bed" | "doubt" | "flat";

/** A line drawn over the room, of which a profile is shown; `at` is the place a finger stands on. */
export interface SceneCut {
  readonly from: Place;
  readonly to: Place;
  readonly at: Place | null;
}

/** A straightedge where it lies, with what it shows: a gap under it, a hump that it rocks on, a gap that a wedge told. */
export interface SceneEdge {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  readonly at: Place;
  readonly label: string;
  readonly kind: "gap" | "hump" | "wedge";
  readonly isBeyond: boolean;
}

/** A place of the bed to work over. */
export interface SceneWork {
  readonly id: string;
  readonly at: Place;
  readonly polygon: readonly Place[];
  readonly label: string;
  readonly way: "rub" | "fill";
  readonly isDone: boolean;
}

export interface Scene {
  readonly outline: readonly Place[];
  /** False while the walls have not been walked all the way round. */
  readonly isClosed: boolean;
  readonly cutouts: readonly (readonly Place[])[];
  readonly doorways: readonly SceneDoorway[];
  readonly fixtures: readonly SceneFixture[];
  /** The length to write along each wall, in the order of the outline; empty for none. */
  readonly wallLabels: readonly string[];
  readonly fill: { readonly kind: FillKind; readonly bands: readonly Band[] } | null;
  readonly contours: readonly SceneLine[];
  readonly points: readonly ScenePoint[];
  readonly rails: readonly SceneRail[];
  readonly handAreas: readonly SceneHandArea[];
  readonly spacings: readonly SceneSpacing[];
  readonly sections: readonly SceneSection[];
  readonly joints: SceneJoints | null;
  readonly falls: SceneFalls | null;
  readonly live: SceneLive | null;
  readonly edges: readonly SceneEdge[];
  readonly works: readonly SceneWork[];
  readonly cut: SceneCut | null;
  /** What a screen reader says of the whole drawing. */
  readonly spoken: string;
}

export const EMPTY_SCENE: Scene = {
  outline: [], isClosed: true, cutouts: [], doorways: [], fixtures: [], wallLabels: [], fill: null, contours: [],
  points: [], rails: [], handAreas: [], spacings: [], sections: [], joints: null, falls: null, live: null, edges: [], works: [], cut: null, spoken: "",
};
