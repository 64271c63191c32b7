"""Sides that pieces of floor share: ways to walk through while both are open, edges of the bed once one is filled."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, between, edges_of

SAME_LINE = 1e-5  # mm across which two sides count as one


@dataclass(frozen=True)
class Side:
    """What two pieces share; `a` and `b` name them by their place in a list, a < b."""

    a: int
    b: int
    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Its length, mm."""
        return math.dist(self.start, self.end)

    @property
    def middle(self) -> Point:
        """The place halfway along it."""
        return between(self.start, self.end, 0.5)

    def other(self, piece: int) -> int:
        """The piece beyond it."""
        return self.a + self.b - piece


_Edge = tuple[int, float, float, float, int]  # 0 along or 1 across, where, from, to, piece
_Stretch = tuple[int, int, int, float, float, float]  # piece, piece, 0 along or 1 across, where, from, to
_Place = tuple[float, float, float]  # where, from, to


def shared_sides(pieces: Sequence[Ring]) -> list[Side]:
    """What pieces in the rails' frame share: sides along or across the rails, each as long as it runs on."""
    edges = sorted(edge for i, piece in enumerate(pieces) for edge in _square_edges(i, piece))
    found = sorted(stretch for n in range(len(edges)) for stretch in _beside(edges, n))
    return [side for _, same in groupby(found, key=lambda s: s[:3]) for side in _joined(list(same))]


def _square_edges(i: int, piece: Ring) -> Iterable[_Edge]:
    for (ua, va), (ub, vb) in edges_of(piece):
        if abs(va - vb) <= SAME_LINE:
            yield (0, (va + vb) / 2.0, min(ua, ub), max(ua, ub), i)
        elif abs(ua - ub) <= SAME_LINE:
            yield (1, (ua + ub) / 2.0, min(va, vb), max(va, vb), i)


def _beside(edges: list[_Edge], n: int) -> Iterable[_Stretch]:
    """What one edge shares with those after it on the same line."""
    way, at, start, end, piece = edges[n]
    for m in range(n + 1, len(edges)):
        if edges[m][0] != way or edges[m][1] - at > SAME_LINE:
            return
        low, high, other = max(start, edges[m][2]), min(end, edges[m][3]), edges[m][4]
        if other != piece and high - low > SAME_LINE:
            yield (min(piece, other), max(piece, other), way, at, low, high)


def _joined(stretches: list[_Stretch]) -> Iterable[Side]:
    """Stretches of one pair and one way, those that run on in one line made one."""
    a, b, way = stretches[0][:3]
    for line in _lines([stretch[3:] for stretch in stretches]):
        at, low, high = line[0]
        for _, start, end in line[1:]:
            if start - high > SAME_LINE:
                yield _side(a, b, way, (at, low, high))
                low = start
            high = max(high, end)
        yield _side(a, b, way, (at, low, high))


def _lines(places: list[_Place]) -> Iterable[list[_Place]]:
    """Places on one line but for rounding together, in order along it; they are given in order across."""
    line = places[:1]
    for place in places[1:]:
        if place[0] - line[0][0] > SAME_LINE:
            yield sorted(line, key=lambda one: one[1])
            line = []
        line.append(place)
    yield sorted(line, key=lambda one: one[1])


def _side(a: int, b: int, way: int, place: _Place) -> Side:
    at, low, high = place
    return Side(a, b, (low, at), (high, at)) if way == 0 else Side(a, b, (at, low), (at, high))
