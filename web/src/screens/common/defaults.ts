/** What the engine takes where a room says nothing, in the same words; shown so that it can be seen and changed. */
const INCH = 25.4; // mm

export const RAIL_DEFAULTS = {
  "rails.straightedge": 72 * INCH,
  "rails.bearing": 2 * INCH,
  "rails.inset": 6 * INCH,
  "rails.strip.thickness": INCH,
  "rails.strip.width": 1.5 * INCH,
  "rails.strip.length": 96 * INCH,
  "rails.overlap": 12 * INCH,
  "rails.station_spacing": 24 * INCH,
} as const;

export const MIX_DEFAULTS = {
  "mix.cement": 1,
  "mix.lime": 0,
  "mix.sand": 5,
  "mix.bag_mass": 42.637683,
  "mix.water_cement": 0.5,
  "mix.air": 0.1,
  "mix.waste": 0.1,
} as const;

export const CURING_DEFAULTS = { "curing.working_time": 1.5, "curing.assumed": 20 } as const;

export const COVERING_DEFAULTS = { "bed.covering.tile_thickness": 9.525, "bed.covering.bond_thickness": 4.7625 } as const;
