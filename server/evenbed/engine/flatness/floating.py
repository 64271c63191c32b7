"""A bed read whole from one set-up that nothing ties to the subfloor: it lies covered, and no mark was read.

How flat the bed is, and how it falls, needs no tie. So that both can be told, it is taken to lie at its designed
height in the mean; how high it lies is then not known, which is said beside it.
"""

import math
from dataclasses import replace

from evenbed.engine.heights import Levels
from evenbed.engine.measured import Levelling, measured_from
from evenbed.engine.top.facets import BedTop


def floating_setup(levelling: Levelling, levels: Levels) -> str | None:
    """The set-up that all of the bed was read from, where nothing ties it; None where any of the bed has a height."""
    rows = zip(levelling.readings, measured_from(levelling).setup_of, levels.heights, strict=False)
    bed = [
        (setup.id, height.z) for reading, setup, height in rows if reading.stage == "bed" and reading.at is not None
    ]
    setups = {setup for setup, _ in bed}
    return setups.pop() if len(setups) == 1 and all(z is None for _, z in bed) else None


def floated(levelling: Levelling, levels: Levels, top: BedTop) -> Levels:
    """The levels with heights of a floating bed, mm, its mean at the designed top; as they are where none floats."""
    setup = floating_setup(levelling, levels)
    if setup is None:
        return levels
    measured = measured_from(levelling)
    own = {
        n: measured.observations[n].value
        for n, reading in enumerate(levelling.readings)
        if reading.stage == "bed" and reading.at is not None and measured.setup_of[n].id == setup
    }
    places = {n: place for n in own if (place := measured.places[n]) is not None}
    line = math.fsum(top.at(*places[n]) - value for n, value in own.items()) / len(own)
    heights = tuple(replace(one, z=line + own[n]) if n in own else one for n, one in enumerate(levels.heights))
    return replace(levels, heights=heights)
