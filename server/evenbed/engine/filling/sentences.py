"""What can go wrong with filling, in English, by code."""

FILLING_CAUTIONS: dict[str, str] = {
    "exit_assumed": "No doorway is given: the way out is taken to be the middle of the longest wall.",
    "section_cut_off": (
        "Sections {first} to {last} have no way out over the bed: fill them first, and plan how to leave them."
    ),
    "narrow_way_out": (
        "The way out passes between sections less than {width:.0f} mm wide: lay a board, or fill from both sides."
    ),
}
