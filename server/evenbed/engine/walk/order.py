"""The order in which places are walked: a short way over all of them from the way in, not through walls.

The nearest place next makes a first way; then stretches of it are turned round and single places moved, as long as
that shortens it (2-opt and or-opt; G. A. Croes, Operations Research 6, 1958; I. Or, 1976, both from memory).
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.outline import Figure
from evenbed.engine.walk.shorten import shortened
from evenbed.engine.walk.ways import Ways


def walked(figure: Figure, places: Sequence[Point], start: Point) -> tuple[int, ...]:
    """The places by index, in the order they are walked; the first is the one nearest to `start`."""
    if not places:
        return ()
    ways = Ways(figure, places)
    first = min(range(len(places)), key=lambda n: (math.dist(places[n], start), n))
    return tuple(shortened(ways, _nearest_next(ways, first)))


def way_length(places: Sequence[Point]) -> float:
    """Length of the straight ways from each place to the next, mm."""
    return math.fsum(math.dist(p, q) for p, q in pairwise(places))


def _nearest_next(ways: Ways, first: int) -> list[int]:
    """From each place to the nearest one not walked yet."""
    order, left = [first], set(range(len(ways.places))) - {first}
    while left:
        order.append(ways.nearest(order[-1], left))
        left.remove(order[-1])
    return order
