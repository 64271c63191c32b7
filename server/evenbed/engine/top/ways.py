"""Ways down: whether water comes square to a line from everywhere in a part of the room, or at least along walls."""

import math
from collections.abc import Iterator

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, Ring, edges_of, turn_of

OUT_OF_SQUARE = 1 / 20  # walls that lean so little off the way down are taken for square; common practice, no source
ALONG = 1 / 2  # of the floor's fall: a wall that water runs along falls so much or more; common practice, no source
ON_LINE = 1e-6  # mm


def blocked_at(ring: Ring, base: Plane) -> Point | None:
    """A corner of the first wall of an anticlockwise part that bars the straight way down to the base's line.

    `base` is the distance to that line, positive in the part. None where every place has its way.
    """
    for p, q, ahead, drop in _walls_below(ring, base):
        if ahead > ON_LINE + OUT_OF_SQUARE * drop:
            return _higher(p, q, base)
    below = [p for p in ring if base.at(*p) < -ON_LINE]
    return below[0] if below else None


def pocket_at(ring: Ring, base: Plane) -> Point | None:
    """A corner of an anticlockwise part where water stands off the base's line: it is lower than what is beside it.

    Walls with the floor above them count too, where they fall less than ALONG of what the floor does. Heights are
    distances to the line, as in `blocked_at`; None where all water runs to it, along walls if need be.
    """
    for p, q, _, drop in _walls_below(ring, base):
        if drop < ALONG * math.dist(p, q):
            return _higher(p, q, base)
    heights = base.over(ring)
    lows = (n for n, z in enumerate(heights) if z > ON_LINE and heights[n - 1] > z < heights[(n + 1) % len(ring)])
    return next((ring[n] for n in lows if turn_of(ring[n - 1], ring[n], ring[(n + 1) % len(ring)]) > 0), None)


def _walls_below(ring: Ring, base: Plane) -> Iterator[tuple[Point, Point, float, float]]:
    """The walls off the line with the floor above them: how far along it they run, and how much they fall."""
    along = Plane(0.0, base.c, -base.b)
    for p, q in edges_of(ring):
        ahead = along.at(*q) - along.at(*p)
        low, high = sorted((base.at(*p), base.at(*q)))
        if ahead > ON_LINE and high > ON_LINE:
            yield p, q, ahead, high - low


def _higher(p: Point, q: Point, base: Plane) -> Point:
    return max(p, q, key=lambda at: round(base.at(*at), 6))
