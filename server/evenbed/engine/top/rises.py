"""The largest fall: a cone over the two rises of a plane, met by as many of its tangents as it takes."""

import math
from collections.abc import Sequence

from evenbed.engine.top.linear_programme import Row

FAR_BELOW = -1e9  # mm: under every top that can be asked for, so that it never decides
TOO_STEEP = 1e-12  # of the most, and of a mm: a steeper rise is rounding


def tangent_at(rises: Sequence[float], most: float) -> Row | None:
    """The row over (height, across, up) that turns too steep rises back to `most`; None where they are within it."""
    across, up = rises
    size = math.hypot(across, up)
    if size <= most + TOO_STEEP * max(1.0, most):
        return None
    return 0.0, -across / size, -up / size, -most
