"""A straightedge as it lies on the bed, whole: its ends, where it rests, and how well that is known."""

import math
from functools import lru_cache
from itertools import combinations

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.search import Found
from evenbed.engine.flatness.shapes import Lying
from evenbed.engine.geometry import between
from evenbed.engine.region import Region, stretches_along

MOST_CORNERS = 24  # of a room whose longest way is looked for corner by corner
SPARE = 1e-3  # mm by which a rest may stand outside the room's own stretch, by rounding


def lying_of(surface: BedSurface, found: Found | None, length: float) -> Lying | None:
    """A straightedge of a length where it was found to lie: its middle over its rests', its ends within the walls."""
    if found is None:
        return None
    start, end = _ends(surface, found, length)
    sigma = surface.sigma_of(found.first, found.at, found.second)
    return Lying(start, end, found.at, (found.first, found.second), found.gap, sigma)


def _ends(surface: BedSurface, found: Found, length: float) -> tuple[Point, Point]:
    apart = math.dist(found.first, found.second)
    spare = max(0.0, length - apart)
    reach = 1.0 + spare / apart
    far = between(found.second, found.first, reach), between(found.first, found.second, reach)
    low, high = 0.0, apart + 2.0 * spare
    for begin, stop in stretches_along(surface.regions, *far):
        if begin <= spare + SPARE and stop >= spare + apart - SPARE:
            low, high = max(low, begin), min(high, stop)
    start = min(max(low, spare / 2.0), max(low, high - apart - spare))
    start = min(start, spare)
    end = max(min(high, start + apart + spare), spare + apart)
    whole = apart + 2.0 * spare
    return between(*far, start / whole), between(*far, end / whole)


@lru_cache(maxsize=8)
def longest_stretch(regions: tuple[Region, ...]) -> float:
    """The longest straightedge that fits the room, mm, between two corners; of a very crooked room, its box's."""
    return max(_longest_in(region) for region in regions)


def _longest_in(region: Region) -> float:
    low_x, low_y, high_x, high_y = region.box
    if len(region.outer) > MOST_CORNERS:
        return math.hypot(high_x - low_x, high_y - low_y)
    stretches = (
        stop - begin for p, q in combinations(region.outer, 2) for begin, stop in stretches_along((region,), p, q)
    )
    return max(stretches)
