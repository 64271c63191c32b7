"""What can go wrong with truing, in English, by code."""

TRUING_CAUTIONS: dict[str, str] = {
    "common_height_unknown": (
        "A level tells how rails lie to each other, never how high they all lie: "
        "before filling, check the height of one station with the rod."
    ),
    "level_out": (
        "This level is out by {per_metre:.1f} mm in a metre ({per_four_feet:.1f} mm in 4 ft): have it set, "
        "or turn it end for end at every reading and enter both."
    ),
    "level_short": (
        "A level {length:.0f} mm long was read over {run:.0f} mm, which tells {times:.1f} times less. "
        "Lay it on the straightedge, hold the low end up until it shows level, and enter the gap under that end."
    ),
    "rail_reading_contradicts": (
        "A reading along rail {rail} is {by:.1f} mm off what the others say. Read it again before you lift a rail."
    ),
    "rail_reading_across_contradicts": (
        "A reading across rails {first} and {second} is {by:.1f} mm off what the others say. "
        "Read it again before you lift a rail."
    ),
    "too_many_read": (
        "More was read than is reckoned together: at most {rails:.0f} rails and {levels:.0f} levels. "
        "True the room in parts."
    ),
}
