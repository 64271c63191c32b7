"""What can go wrong with rails, in English, by code."""

RAIL_CAUTIONS: dict[str, str] = {
    "no_rails_fit": (
        "No rail fits in a part of {area:.1f} m² with {inset:.0f} mm to the walls. "
        "Level it from the walls with a short straightedge, or bring the rails nearer to the walls."
    ),
    "too_many_rails": (
        "A straightedge of {straightedge:.0f} mm would need hundreds of rails in this room, so none are laid out: "
        "use a longer one, or work the room in parts."
    ),
    "inset_reduced": (
        "The room is too narrow for rails {inset:.0f} mm from the walls: they stand {used:.0f} mm from them. "
        "Keep the perimeter joint clear."
    ),
    "inset_raised": (
        "With {inset:.0f} mm to the walls the strips would lie in them: they stand {used:.0f} mm from them, "
        "half their own width."
    ),
    "one_rail": (
        "Only one rail lies in a part of {area:.1f} m²: the straightedge has nothing to rest on at its other end. "
        "Check across with a level at every pull."
    ),
    "by_hand": (
        "Places that no straightedge on rails reaches, the strips along the walls not counted: {count:.0f}, "
        "{area:.2f} m² in all, the largest {largest:.2f} m². Each is named with the way to finish it: "
        "check them with a straightedge before the bed hardens."
    ),
    "strip_too_thick": (
        "Rail {rail}: the strip of {strip:.1f} mm is thicker than the bed, stations concerned: {count:.0f}. "
        "The worst is station {station}: the bed is {bed:.1f} mm thick there, "
        "the strip would stand {over:.1f} mm too high. Take a strip of at most {thickest_fitting:.1f} mm, "
        "chip the high spot, or raise the whole top by {raise:.1f} mm."
    ),
    "no_bed_for_strip": (
        "Rail {rail}: hardly any bed, or none, for a strip, stations concerned: {count:.0f}. At station {station} "
        "it is less than {least:.0f} mm: for a strip of {strip:.1f} mm chip the high spot, "
        "or raise the whole top by {raise:.1f} mm."
    ),
    "strip_ends_at_break": (
        "Rail {rail}: the top bends where a straight strip cannot follow, times: {count:.0f}, the first at station "
        "{station}. End the strip there and begin the next one there, each cut to length."
    ),
    "rail_on_step": (
        "Rail {rail} runs along a step of {by:.1f} mm in the top: it can serve one side alone, and its heights are "
        "not to be trusted. Move it to one side, and lay one on the other side."
    ),
    "strips_short": (
        "Strips of {thickness:.1f} mm, {length:.0f} mm long, on hand: {count:.0f}. Rails {rail} and {other} stand "
        "beside the same section and are both made of them: {wanted:.0f} are wanted."
    ),
    "crease_between_rails": (
        "Between rails {rail} and {other} the top bends upward: at {x:.0f}, {y:.0f} a straightedge on both would cut "
        "{by:.1f} mm too deep. Put a rail along the ridge, or cut in two pulls."
    ),
    "valley_between_rails": (
        "Between rails {rail} and {other} the top bends downward: at {x:.0f}, {y:.0f} a straightedge on both would "
        "leave {by:.1f} mm too much. Put a rail along the valley, or cut in two pulls."
    ),
    "no_rails_placed": (
        "All rails were taken away: nothing guides the straightedge. Lay rails, or take the proposed ones."
    ),
    "rail_outside": "Rail {rail} lies outside the floor and is left out.",
    "rail_cut_off": (
        "Rail {rail} runs through a wall, a cutout or a fixture: {cut:.0f} mm of it are left off. "
        "Draw it as long as it can lie."
    ),
    "rail_in_wall": (
        "Rail {rail} comes within {distance:.0f} mm of a wall: its strip would lie in the wall. "
        "Its middle needs {least:.0f} mm."
    ),
    "rail_near_wall": (
        "Rail {rail} comes within {distance:.0f} mm of a wall, where it should keep {inset:.0f} mm: "
        "the perimeter joint is not kept clear."
    ),
    "rails_too_far": (
        "Rails {rail} and {other} stand {distance:.0f} mm apart, the longest straightedge spans {most:.0f} mm: "
        "between them the bed is done by hand. Move one, or lay a rail between them."
    ),
    "rails_too_close": (
        "Rails {rail} and {other} stand {distance:.0f} mm apart: less than {least:.0f} mm leaves no room "
        "to cut the mud between them."
    ),
    "rail_not_needed": "Rail {rail} is needed nowhere: the others serve all that it serves.",
    "rail_alone": (
        "Rail {rail} serves nothing: no straightedge reaches from it to another rail. "
        "Move it, or lay one within reach of it."
    ),
    "rail_short": ("Rail {rail} is {length:.0f} mm long: a straightedge needs {least:.0f} mm to run along."),
}
