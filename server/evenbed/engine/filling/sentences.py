"""What can go wrong with filling, in English, by code."""

FILLING_CAUTIONS: dict[str, str] = {
    "exit_assumed": "No doorway is given: the way out is taken to be the middle of the longest wall.",
    "section_cut_off": "No way out over the bed: {names}. Fill there first, and plan how to leave.",
    "narrow_way_out": (
        "The way out passes between sections less than {width:.0f} mm wide: lay a board, or fill from both sides."
    ),
    "mixer_outside": (
        "The mixer stands on no floor of this room: it counts as standing outside, at the way out. "
        "Put it where it stands."
    ),
    "thin_sections": (
        "Sections narrower than {width:.0f} mm: {count:.0f} ({names}). A strip of bed that thin is hard to ram: "
        "fill it together with its neighbour, or move the rails."
    ),
    "sections_changed": (
        "Rails or walls were changed after filling began. Sections that have another shape now than when they were "
        "marked: {count:.0f} ({names}). Check which sections are filled, and mark them anew."
    ),
    "trapped": (
        "Sections cut off from the way out by fresh bed: {count:.0f} ({names}). Do not walk on it: lay boards "
        "across, or wait until it can be walked on."
    ),
    "batch_late": (
        "Batches past their working time: {count:.0f}. Throw them away: water stirred into mortar that has begun to "
        "set makes it weak."
    ),
    "channels_late": (
        "Channels not packed in time: {count:.0f} sections ({names}). Cut their sides back to firm mortar, dampen "
        "them and pack them as dense as the bed."
    ),
    "cold_joint_cut": (
        "If work stops now, {length:.0f} mm of edge lie neither along a rail nor at a movement joint: cut them back "
        "square, down to the subfloor, and key them. A cold joint may crack the tile: it belongs at a movement joint."
    ),
    "cold_joint_rail": (
        "If work stops now, {length:.0f} mm of edge lie along rails, not at a movement joint: cut it square along "
        "the strip and key it before work goes on. A cold joint belongs at a movement joint."
    ),
}
