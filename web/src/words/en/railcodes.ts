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
} as const;
