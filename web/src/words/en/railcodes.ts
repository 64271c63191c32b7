/** English for what the engine says of rails: problems and cautions. */
export const railcodes = {
  "problem.rail_without_length": "This rail has no length: draw it at least {least:length} long, or take it away.",
  "problem.rails_not_parallel": "This rail is turned by {angle:number}° from the longest one, the most is {most:number}°: a straightedge needs rails that run side by side.",
  "caution.no_rails_placed": "All rails were taken away: nothing guides the straightedge. Lay rails, or take the proposed ones.",
  "caution.rail_outside": "Rail {rail} lies outside the floor and is left out.",
  "caution.rail_cut_off": "Rail {rail} runs through a wall, a cutout or a fixture: {cut:length} of it are left off. Draw it as long as it can lie.",
  "caution.rail_in_wall": "Rail {rail} comes within {distance:depth} of a wall: its strip would lie in the wall. Its middle needs {least:depth}.",
  "caution.rail_near_wall": "Rail {rail} comes within {distance:depth} of a wall, where it should keep {inset:depth}: the perimeter joint is not kept clear.",
  "caution.rails_too_far": "Rails {rail} and {other} stand {distance:length} apart, the longest straightedge spans {most:length}: between them the bed is done by hand. Move one, or lay a rail between them.",
  "caution.rails_too_close": "Rails {rail} and {other} stand {distance:length} apart: less than {least:length} leaves no room to cut the mud between them.",
  "caution.rail_not_needed": "Rail {rail} is needed nowhere: the others serve all that it serves.",
  "caution.rail_short": "Rail {rail} is {length:length} long: a straightedge needs {least:length} to run along.",
  "caution.by_hand": "Places that no straightedge on rails reaches, the strips along the walls not counted: {count:number}, {area:area} in all, the largest {largest:area}. Each is named with the way to finish it: check them with a straightedge before the bed hardens.",

  "formula.shim_rounded": "shims to whole units, each up or down, so that first the largest difference of two neighbours' rounding, then Σ of these differences squared, then Σ of the rounding squared is least",
  "formula.ramp_volume": "mortar under the strips = ∫ shim × (strip's width + shim) along the rail: sides slope 1:1, shims straight between stations, none below 0",
  "input.strip_width": "Strip, width",
  "input.rounded_sixteenth": "Most rounded off, in sixteenths",
  "input.rounded_millimetre": "Most rounded off, in millimetres",

  "caution.strip_too_thick": "Rail {rail}: the strip of {strip:depth} is thicker than the bed, stations concerned: {count}. The worst is station {station}: the bed is {bed:depth} thick there, the strip would stand {over:depth} too high. Take a strip of at most {thickest_fitting:depth}, chip the high spot, or raise the whole top by {raise:depth}.",
  "caution.no_bed_for_strip": "Rail {rail}: hardly any bed, or none, for a strip, stations concerned: {count}. At station {station} it is less than {least:depth}: for a strip of {strip:depth} chip the high spot, or raise the whole top by {raise:depth}.",
  "caution.strip_ends_at_break": "Rail {rail}: the top bends where a straight strip cannot follow, times: {count}, the first at station {station}. End the strip there and begin the next one there, each cut to length.",
  "caution.rail_on_step": "Rail {rail} runs along a step of {by:depth} in the top: it can serve one side alone, and its heights are not to be trusted. Move it to one side, and lay one on the other side.",
  "caution.strips_short": "Strips of {thickness:depth}, {length:length} long, on hand: {count}. Rails {rail} and {other} stand beside the same section and are both made of them: {wanted} are wanted.",
  "caution.crease_between_rails": "Between rails {rail} and {other} the top bends upward: at {x:length} across, {y:length} up a straightedge on both would cut {by:depth} too deep. Put a rail along the ridge, or cut in two pulls.",
  "caution.valley_between_rails": "Between rails {rail} and {other} the top bends downward: at {x:length} across, {y:length} up a straightedge on both would leave {by:depth} too much. Put a rail along the valley, or cut in two pulls.",
} as const;
