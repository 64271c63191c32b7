"""What must be said where the bed is worked over, and how the list is reckoned, in English, by code."""

WORK_CAUTIONS: dict[str, str] = {
    "work_green": (
        "While the bed is green, rub humps down with the wood float and fill hollows with fresh mortar, rammed as "
        "hard as the bed. Fresh mortar only holds to the bed within its working time, until about {fill_until}. How "
        "soft it is, a thumb tells, not this figure."
    ),
    "work_green_set": (
        "While the bed is green, rub humps down with the wood float. Fresh mortar no longer bonds to it: its working "
        "time was over at about {fill_until}. Leave hollows until the bed has hardened, then fill them with a "
        "patching compound by its maker's instructions. How soft it is, a thumb tells, not this figure."
    ),
    "work_hardened": (
        "The bed has hardened. Grinding it throws silica dust: work wet or with extraction, and wear a respirator. "
        "Fill hollows with a patching compound by its maker's instructions, and let it set before tile."
    ),
    "work_any": (
        "When the bed was placed is not told. While it is green it is rubbed with the wood float and filled with "
        "fresh mortar, rammed. Once hard it is ground, which throws silica dust (work wet or with extraction, wear a "
        "respirator), and filled with a patching compound by its maker's instructions."
    ),
    "work_wedge": (
        "At about {x:.0f}, {y:.0f} a straightedge of {length:.0f} mm stood {gap:.1f} mm open where {limit:.1f} mm "
        "is allowed: fill there by about {by:.1f} mm, or take down what it rests on, and lay it there again."
    ),
    "work_reduced": (
        "With {readings:.0f} readings, or so much of the bed beyond its limits, not every line was looked at for "
        "this list. The worst comes first, and more may be left. Lay the straightedge, or read the bed, again when "
        "it is done."
    ),
    "work_cut": (
        "Only the {most:.0f} places with the most effect are listed. A bed with so many is better cut off or "
        "levelled as a whole than mended place by place."
    ),
}

WORK_FORMULAS: dict[str, tuple[str, str]] = {
    "work_least": (
        "of all ways to raise and lower the read places, the one that moves the least mortar and leaves every gap "
        "and hump that was beyond its limit at 4/5 of it; neighbours moved the same way are one place",
        "bed_surface",
    ),
}
"""How the work list is reckoned, and the code of the source."""
