/** English for what the engine says of truing: cautions, formulas and their inputs. */
export const truingcodes = {
  "caution.common_height_unknown": "A level tells how rails lie to each other, never how high they all lie: before filling, check the height of one station with the rod.",
  "caution.level_out": "This level is out by {per_metre:number} mm in a metre ({per_four_feet:error} in 4 ft, 1.2 m): have it set, or turn it end for end at every reading and enter both.",
  "caution.level_short": "A level {length:length} long was read over {run:length}, which tells {times:number} times less. Lay it on the straightedge, hold the low end up until it shows level, and enter the gap under that end.",
  "caution.rail_reading_contradicts": "A reading along rail {rail} is {by:error} off what the others say. Read it again before you lift a rail.",
  "caution.rail_reading_across_contradicts": "A reading across rails {first} and {second} is {by:error} off what the others say. Read it again before you lift a rail.",
  "caution.too_many_read": "More was read than is reckoned together: at most {rails:number} rails and {levels:number} levels. True the room in parts.",

  "formula.truing_worst": "ends of all rails, each a straight line, that make Σ (residual / standard error)² least over all readings together, the level's own error among the unknowns; worst = the one furthest from the top",
  "formula.truing_raise": "raise = − how much that end stands too high, by all readings together; rails that lie well stay",
  "formula.truing_mortar": "mortar = strip's width × rail's length × raise / 2, a wedge under the rail",
  "formula.level_error": "error = (reading − reading with the level turned end for end) / 2 / length, by all readings together",

  "input.end_off": "Stands too high by",
  "input.flips": "Readings both ways round",
  "input.level_sigma": "Standard error, mm in a metre",
  "input.rail_checks": "Readings that count",
  "input.raised": "Raise",
  "input.reading_sigma": "Standard error of one reading",
  "input.set_sigma": "Standard error of an end as set",
  "input.tolerance": "Most a rail may be out",
} as const;
