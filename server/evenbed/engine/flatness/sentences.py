"""What must be said beside the flatness of a bed, in English, by code."""

FLATNESS_CAUTIONS: dict[str, str] = {
    "flatness_computed": (
        "A straightedge laid by computation knows the bed at its readings alone. The way of measuring that the "
        "contract names, and whoever inspects it, decide."
    ),
    "flatness_sparse": (
        "Readings stand near enough for a straightedge of {length:.0f} mm on {share:.0%} of the bed only: that "
        "nothing was found elsewhere says nothing. Read more places, or lay the straightedge and enter the gaps."
    ),
    "flatness_near_limit": (
        "The worst place under {length:.0f} mm is {gap:.1f} mm against a limit of {limit:.1f} mm, known to about "
        "{doubt:.1f} mm: too near to the limit to tell. Lay the straightedge there."
    ),
    "flatness_coarse": (
        "A gap is known to about {doubt:.1f} mm by these readings, half of the limit of {limit:.1f} mm or more: read "
        "with a finer instrument, or lay the straightedge itself."
    ),
    "flatness_longer": (
        "A straightedge of {length:.0f} mm is longer than the {fits:.0f} mm that fit this room: it was laid as long "
        "as the room allows, against the whole limit."
    ),
    "flatness_one_line": ("The readings of the bed are too few, or stand on one line: nothing is known beside them."),
    "flatness_far_off": (
        "Bed readings more than {most:.0f} mm off what those round them foretell: {count:.0f}. The worst, at "
        "{x:.0f}, {y:.0f}, is {by:.1f} mm off. Read it again before anything is worked over: a slip with the rod "
        "looks like a hump or a hollow."
    ),
    "flatness_leans": (
        "As a whole the bed leans off its design by {lean:.2%}, {rise:.1f} mm from one side of what was read to the "
        "other. That is more than 2 mm in a metre (1/4 in in 10 ft; common practice, no source): see what it does at "
        "doors, drains and fixed heights before it is tiled."
    ),
    "flatness_floating": (
        "Nothing ties the set-up of the bed to the subfloor, so how high the bed lies is not known: it is taken to "
        "lie at its designed height in the mean. How flat it is and how it falls stand without that."
    ),
    "flatness_reduced": (
        "There are so many readings that a straightedge of {length:.0f} mm was not laid through every two of them: "
        "a worse place may have been passed over."
    ),
    "straightedge_unread": "Nothing was read on the bed there: read it, or lay the straightedge itself.",
    "straightedge_parted": (
        "The straightedge runs through a wall or a cutout, which none can: it was laid on its longest piece of read "
        "bed alone, {length:.0f} mm. Lay it on each side by itself."
    ),
    "straightedge_cut": (
        "{left_out:.0f} mm of the straightedge lie beyond walls or beyond what was read: it was laid on the rest."
    ),
    "flatness_no_limits": "The company's own limits are asked for, and none is given.",
    "flatness_numbers_partly": (
        "F-numbers rest on {lines:.0f} lines of heights. Where lines must run and how many there must be is for "
        "ASTM E1155 and the contract; that was not looked after. Lines of fewer than twelve heights decide nothing."
    ),
    "flatness_fall_short": (
        "As built, the bed falls {fall:.2%} where it falls least, less than the {least:.2%} (1/4 in per foot) asked "
        "of shower floors (IRC P2709.1, as quoted): water may stand."
    ),
    "flatness_fall_away": (
        "As built, parts of the bed fall away from where the water is to run: {count:.0f}. Water will stand, or run "
        "to the walls: build the fall anew before anything covers it."
    ),
    "flatness_touched": (
        "Places that were worked over and that nobody looked at since: {count:.0f}. Read them again, or lay the "
        "straightedge there: until then the bed is not judged."
    ),
    "flatness_water": (
        "Places from which no water runs off: {count:.0f}. Fill them, or cut a way down, before anything covers them."
    ),
}

FLATNESS_FORMULAS: dict[str, tuple[str, str]] = {
    "straightedge_gap": (
        "gap = line from rest to rest − bed, over the triangles between the readings, largest for every line, every "
        "place on it and every two rests no further apart than the straightedge is long",
        "bed_surface",
    ),
    "straightedge_hump": (
        "hump = bed − line from foot to foot, highest for every line, every place on it and every two feet no "
        "further apart than the straightedge is long",
        "bed_surface",
    ),
    "judged_share": (
        "share of the bed no further than a quarter of the straightedge from a reading that no wall hides, or from "
        "where one as long was laid by hand: two readings in each straightedge's length show a wave as long as it",
        "common_practice",
    ),
    "beyond_share": (
        "share of the bed under a gap or on a hump beyond the limit, by 250 places or more evenly over it, along "
        "six lines through each",
        "bed_surface",
    ),
    "bed_level": (
        "bed − designed top at every reading: their mean, the rms about that mean, the highest and the lowest",
        "geometry",
    ),
    "built_fall": ("fall = steepness of the plane that fits the readings on that part of the top best", "geometry"),
    "f_flatness": (
        "FF = 115.8 mm / (3 S + |mean|) of q = h(i) − 2 h(i−1) + h(i−2); lines together: F² = Σ n / Σ (n / F²)",
        "astm_e1155",
    ),
    "f_levelness": (
        "FL = 317.5 mm / (3 S + |mean|) of z = h(i) − h(i−10); lines together: F² = Σ n / Σ (n / F²)",
        "astm_e1155",
    ),
    "limit_ansi": (
        "limit of the rule for that length, or for its next longer one, by the tile's longest edge",
        "ansi_a108_02",
    ),
    "limit_bs": ("limit under a 2 m straightedge resting on the floor; a shorter one has the same", "bs_8204"),
    "limit_din": (
        "limit linear between the spans of the table, to the nearest mm, a half upwards; beyond 15 m as at 15 m",
        "din_18202",
    ),
    "limit_aci": (
        "gap linear between published pairs of FF and gap, for the FF asked; it is a note: the F-numbers decide",
        "aci_117",
    ),
    "limit_own": (
        "limit as set in this room for that length, or the least that is set for a longer one",
        "room",
    ),
}
"""How the figures are reckoned, and the code of the source."""

FLATNESS_SOURCES: dict[str, str] = {
    "bed_surface": (
        "The bed is the Delaunay triangulation of its readings, in heights above the designed top, linear in each "
        "triangle; what a straightedge touches is the upper hull of the section along it."
    ),
    "ansi_a108_02": (
        "ANSI A108.02, as quoted by the US Access Board and in trade journals: all edges of the tile under 15 in, "
        "1/4 in in 10 ft and 1/16 in in 1 ft; one edge 15 in or more, 1/8 in in 10 ft and 1/16 in in 24 in."
    ),
    "bs_8204": (
        "BS 8204, as told by The Concrete Society: SR1 3 mm, SR2 5 mm, SR3 10 mm under a 2 m straightedge resting on "
        "the floor."
    ),
    "din_18202": "DIN 18202, table 3, rows 2 to 4, as quoted: limits by span, linear between.",
    "aci_117": (
        "ACI 117-10, table 4.8.5.1: overall FF and FL, of any one part at least 3/5 of them. Gap under an unlevelled "
        "10 ft straightedge by FF: US Access Board."
    ),
    "astm_e1155": (
        "ASTM E1155M: the definitions of q and z as published; the constants and how lines are put together from "
        "memory."
    ),
}
"""What the rules rest on."""
