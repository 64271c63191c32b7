"""Straight ways down: whether water comes square to a line from everywhere in a part of the room."""

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, Ring, edges_of

OUT_OF_SQUARE = 1 / 20  # a wall that leans so little off the way down is taken for square: water follows it
ON_LINE = 1e-6  # mm


def blocked_at(ring: Ring, base: Plane) -> Point | None:
    """A corner of the first wall of an anticlockwise part that bars the straight way down to the base's line.

    `base` is the distance to that line, positive in the part. None where every place has its way.
    """
    along = Plane(0.0, base.c, -base.b)
    for p, q in edges_of(ring):
        ahead = along.at(*q) - along.at(*p)
        low, high = sorted((base.at(*p), base.at(*q)))
        if low < -ON_LINE or (high > ON_LINE and ahead > ON_LINE + OUT_OF_SQUARE * (high - low)):
            return max(p, q, key=lambda at: round(base.at(*at), 6))
    return None
