/**
 * The plan as the engine gives it: lengths mm, areas m², volumes m³, masses kg, loads kg/m², ages h, angles degrees.
 * Keys that the contract does not name may be present and are not relied on here.
 */
import type { Point } from "./records";

export type Point3 = readonly [number, number, number];

export interface PlanOutline {
  readonly vertices: readonly Point[];
  readonly area: number;
  readonly perimeter: number;
  readonly misclosure: {
    readonly dx: number;
    readonly dy: number;
    readonly length: number;
    readonly ratio: number | null;
  } | null;
}

export interface Height {
  readonly reading: string;
  readonly at: Point;
  readonly z: number;
  readonly residual: number | null;
  readonly sigma: number | null;
}

export interface Suspect {
  readonly reading: string;
  readonly expected: number;
  readonly difference: number;
  readonly why: string;
}

export interface NextReading {
  readonly at: Point;
  readonly sigma: number | null;
  readonly why: string;
}

export interface Levels {
  readonly heights: readonly Height[];
  readonly setups: readonly { readonly id: string; readonly line_height: number; readonly sigma: number | null }[];
  readonly marks: readonly { readonly id: string; readonly z: number; readonly sigma: number | null }[];
  readonly sigma0: number | null;
  readonly suspects: readonly Suspect[];
  readonly next_readings: readonly NextReading[];
}

export interface Contour {
  readonly z: number;
  readonly lines: readonly (readonly Point[])[];
}

export interface Surface {
  readonly points: readonly Point3[];
  /** Vertices the engine had to estimate, by index. */
  readonly estimated: readonly number[];
  readonly triangles: readonly (readonly [number, number, number])[];
  readonly highest: unknown;
  readonly lowest: unknown;
  readonly contours: readonly Contour[];
}

export interface Facet {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly polygon: readonly Point[];
}

export interface Doorway {
  readonly id: string;
  readonly finished_height: number;
  readonly step: number | null;
  readonly kind: string;
}

export interface Bed {
  readonly top: readonly Facet[];
  readonly thickness: {
    readonly min: number;
    readonly max: number;
    readonly mean: number;
    readonly min_at: Point;
    readonly max_at: Point;
  };
  readonly volume: number;
  readonly volume_range: readonly [number, number] | null;
  readonly mass: number;
  readonly load: { readonly mean: number; readonly max: number };
  readonly doorways: readonly Doorway[];
  readonly chipping: readonly {
    readonly at: Point;
    readonly depth: number;
    readonly area: number;
    readonly saves_volume: number;
  }[];
}

export interface Station {
  readonly at: Point;
  readonly along: number;
  readonly subfloor: number;
  readonly top: number;
  /** Height of the ramp under the strip: top − strip thickness − subfloor. */
  readonly shim: number;
}

export interface Rail {
  readonly id: string;
  readonly from: Point;
  readonly to: Point;
  readonly stations: readonly Station[];
  readonly settings: readonly unknown[];
}

export interface Section {
  readonly id: string;
  readonly polygon: readonly Point[];
  readonly volume: number;
  readonly batches: number;
  readonly order: number;
}

export interface Material {
  readonly item: string;
  readonly quantity: number;
  readonly unit: string;
  readonly packages: number | null;
  readonly why: string;
}

export interface Readiness {
  readonly milestone: string;
  readonly at: string | null;
  readonly equivalent_age: number | null;
  readonly needs: number;
  readonly basis: string;
}

export interface Caution {
  readonly code: string;
  readonly text: string;
  readonly where: string;
  readonly values?: Readonly<Record<string, number | string>>;
}

export interface Explanation {
  readonly formula: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly source: string;
}

export interface Plan {
  readonly engine: { readonly version: string; readonly hash: string };
  readonly outline: PlanOutline;
  readonly levels: Levels;
  readonly surface: Surface;
  readonly bed: Bed;
  readonly rails: readonly Rail[];
  readonly sections: readonly Section[];
  readonly materials: readonly Material[];
  readonly corrections: readonly unknown[];
  readonly level_error: number | null;
  readonly joints: readonly unknown[];
  readonly flatness: unknown;
  readonly readiness: readonly Readiness[];
  readonly evaporation: unknown;
  readonly cautions: readonly Caution[];
  readonly explanations: Readonly<Record<string, Explanation>>;
}

/** One thing wrong with a document: say it from `code` and `values` in the person's language; `message` is English. */
export interface Problem {
  readonly path: string;
  readonly code: string;
  readonly message: string;
  readonly values: Readonly<Record<string, number | string>>;
}
