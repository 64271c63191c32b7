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
        "Only one rail fits in a part of {area:.1f} m²: the straightedge has nothing to rest on at its other end. "
        "Check across with a level at every pull."
    ),
    "by_hand": (
        "{count:.0f} places, {area:.2f} m² in all, lie beyond every pair of rails (the largest {largest:.2f} m²): "
        "bring them to the top with a short straightedge and the float, and check them."
    ),
    "rail_too_short": (
        "At {x:.0f}, {y:.0f} only {length:.0f} mm is free for a rail: none is laid there, the place is done by hand."
    ),
    "strip_too_thick": (
        "Rail {rail}: the strip of {strip:.1f} mm is thicker than the bed, stations concerned: {count:.0f}. "
        "The worst is station {station}: the bed is {bed:.1f} mm thick there, "
        "the strip would stand {over:.1f} mm too high. Take a thinner strip, chip the high spot, or raise the top."
    ),
}
