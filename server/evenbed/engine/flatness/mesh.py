"""The bed as triangles to be cut along lines, thousands of times: plain lists, walked from edge to edge.

A line is a `Way`: a unit direction and how far left of the origin it runs. Its profile is straight between the
places where it crosses edges, so a list of knots (distance along the line, height) is exact; nothing is sampled.
A line through a corner is taken a hair beside it, so that it crosses edges only: its knots are the same but for
rounding.
"""

import math
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, pairwise
from typing import NamedTuple

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.places import Point
from evenbed.engine.flatness.cuts import ONE_KNOT, Cut, Knots, cut_at
from evenbed.engine.geometry import Ring, edges_of

AT_END = 1e-8  # of an edge: crossed so near to its end it is crossed there
Edge = tuple[int, int]
Crossing = tuple[int, int, float]
"""Of an edge: its ends, and the share of the way from the first to the second."""


class Course(NamedTuple):
    """Where a line crosses edges of a mesh, and its parts within a reach and the walls, whatever the heights."""

    crossed: list[Crossing]
    cuts: list[Cut]

    def profiles(self, heights: Sequence[float]) -> list[Knots]:
        """Its parts over some heights of the mesh's points."""
        over = heights_over(self.crossed, heights)
        return [(cut.along, cut.over(over)) for cut in self.cuts]


class Way(NamedTuple):
    """A line: its unit direction (dx, dy), and how far to the left of the origin it runs, mm."""

    dx: float
    dy: float
    left: float

    def at(self, along: float) -> Point:
        """The place at a distance along it from the foot of the origin."""
        return along * self.dx - self.left * self.dy, along * self.dy + self.left * self.dx

    def along(self, at: Point) -> float:
        """How far along it a place lies."""
        return at[0] * self.dx + at[1] * self.dy


def way_through(at: Point, dx: float, dy: float) -> Way:
    """The line through a place in a unit direction."""
    return Way(dx, dy, dx * at[1] - dy * at[0])


@dataclass(frozen=True)
class Mesh:
    """Places of points, anticlockwise triangles over them, and the walls that cut into them (none where none does).

    Heights are given beside it, so that one mesh serves many of them. `parted` are triangles that walls cut right
    through: they join bed that is not joined there, so that no straightedge lies on them.
    """

    places: tuple[Point, ...]
    triangles: tuple[Triangle, ...]
    walls: tuple[Ring, ...] = ()
    parted: frozenset[frozenset[int]] = frozenset()

    @cached_property
    def joined(self) -> tuple[Triangle, ...]:
        """The triangles that are bed: all but the parted ones."""
        return tuple(one for one in self.triangles if frozenset(one) not in self.parted)

    @cached_property
    def apex(self) -> dict[Edge, int]:
        """Directed edge → the third corner of the triangle on its left."""
        sides: dict[Edge, int] = {}
        for i, j, k in self.triangles:
            sides[i, j], sides[j, k], sides[k, i] = k, i, j
        return sides

    @cached_property
    def spokes(self) -> tuple[tuple[int, ...], ...]:
        """For each point the points that an edge joins it to."""
        joined: dict[int, set[int]] = defaultdict(set)
        for i, j in self.apex:
            joined[i].add(j)
            joined[j].add(i)
        return tuple(tuple(sorted(joined[n])) for n in range(len(self.places)))

    @cached_property
    def edges(self) -> tuple[Edge, ...]:
        """Every edge once, its lower point first."""
        return tuple(sorted({(min(e), max(e)) for e in self.apex}))

    @cached_property
    def _wall_edges(self) -> tuple[tuple[float, float, float, float], ...]:
        return tuple((*p, *q) for ring in self.walls for p, q in edges_of(ring))

    def course_along(self, way: Way, edge: Edge | None, low: float, high: float) -> "Course | None":
        """The course of a line within a reach along it and within the walls; None where it crosses no edge.

        It is walked both ways from an edge that it crosses, and ends at the reach or on the rim.
        """
        if edge is None:
            return None
        along, crossed = self.crossings_from(way, edge, (low, high))
        if not self.walls:
            cut = cut_at(along, low, high)
            return None if cut is None else Course(crossed, [cut])
        inside = [(max(low, begin), min(high, end)) for begin, end in self._inside(way)]
        joined = self.joined_along(along, crossed)
        cuts = [cut_at(along, max(begin, b), min(end, e)) for begin, end in inside for b, e in joined]
        return Course(crossed, [cut for cut in cuts if cut is not None])

    def joined_along(self, along: list[float], crossed: list[Crossing]) -> list[tuple[float, float]]:
        """From where to where a line does not lie on parted triangles."""
        if not self.parted:
            return [(along[0], along[-1])]
        found, begin = [], along[0]
        for n, (here, there) in enumerate(pairwise(crossed)):
            if self._are_parted({*_ends_at(here), *_ends_at(there)}):
                found.append((begin, along[n]))
                begin = along[n + 1]
        return [*found, (begin, along[-1])]

    def _are_parted(self, corners: set[int]) -> bool:
        """True where what lies between crossings at these corners is a parted triangle, or the edge between two."""
        if len(corners) > 2:
            return any(frozenset(three) in self.parted for three in combinations(corners, 3))
        if len(corners) < 2:
            return False  # a hair beside one corner
        i, j = corners
        beside = [self.apex[edge] for edge in ((i, j), (j, i)) if edge in self.apex]
        return bool(beside) and all(frozenset((i, j, k)) in self.parted for k in beside)

    def knots_from(self, heights: Sequence[float], way: Way, edge: Edge, reach: tuple[float, float]) -> list[Knots]:
        """The profiles along a line within a reach along it, walls or none, walked from an edge that it crosses."""
        along, crossed = self.crossings_from(way, edge, reach)
        over = heights_over(crossed, heights)
        low, high = reach
        cuts = (cut_at(along, max(low, begin), min(high, end)) for begin, end in self.joined_along(along, crossed))
        return [(cut.along, cut.over(over)) for cut in cuts if cut is not None]

    def crossings_from(self, way: Way, edge: Edge, reach: tuple[float, float]) -> tuple[list[float], list[Crossing]]:
        """Where a line crosses edges, from the last before a reach along it to the first beyond, or to the rim.

        Walked both ways from an edge that it crosses.
        """
        along, crossed = self._march(way, (edge[1], edge[0]), -reach[0], -1.0)
        along = [-t for t in reversed(along)]
        crossed.reverse()
        ahead, beyond = self._march(way, edge, reach[1], 1.0)
        n = bisect_right(ahead, along[-1] + ONE_KNOT)
        along += ahead[n:]
        crossed += beyond[n:]
        return along, crossed

    def _march(self, way: Way, edge: Edge, far: float, sense: float) -> tuple[list[float], list[Crossing]]:
        """Crossings from an edge onwards, one beyond `far`; sense -1 walks backwards, its distances negated."""
        dx, dy, left = way.dx * sense, way.dy * sense, way.left * sense
        places, apex = self.places, self.apex
        is_left = sense > 0.0
        i, j = edge
        (xi, yi), (xj, yj) = places[i], places[j]
        oi, oj = dx * yi - dy * xi - left, dx * yj - dy * xj - left
        ti, tj = dx * xi + dy * yi, dx * xj + dy * yj
        along: list[float] = []
        crossed: list[Crossing] = []
        last = -math.inf
        while True:
            off = oi - oj
            share = oi / off if off > 0.0 else 0.5
            t = ti + share * (tj - ti)
            if t > last + ONE_KNOT:
                along.append(t)
                crossed.append((i, j, share))
                last = t
            k = apex.get((i, j))
            if k is None or t >= far:
                return along, crossed
            x, y = places[k]
            o = dx * y - dy * x - left
            if o > 0.0 or (is_left and o == 0.0):
                i, oi, ti = k, o, dx * x + dy * y
            else:
                j, oj, tj = k, o, dx * x + dy * y

    def edge_at(self, way: Way, point: int) -> Edge | None:
        """An edge at a point of the mesh that the line through it crosses, its left end first; None along the rim."""
        places, (dx, dy, left) = self.places, way
        is_left = dx * places[point][1] - dy * places[point][0] - left >= 0.0
        for other in self.spokes[point]:
            x, y = places[other]
            if (dx * y - dy * x - left >= 0.0) != is_left:
                return (point, other) if is_left else (other, point)
        return None

    def edge_among(self, way: Way, edges: Sequence[Edge]) -> Edge | None:
        """The first of some edges that the line crosses, its left end first; None where it crosses none."""
        places, (dx, dy, left) = self.places, way
        for i, j in edges:
            is_left = dx * places[i][1] - dy * places[i][0] - left >= 0.0
            if is_left != (dx * places[j][1] - dy * places[j][0] - left >= 0.0):
                return (i, j) if is_left else (j, i)
        return None

    def _inside(self, way: Way) -> list[tuple[float, float]]:
        """Where a line lies within the walls."""
        crossings = sorted(self._crossings(way))
        return list(zip(crossings[::2], crossings[1::2], strict=True))

    def _crossings(self, way: Way) -> list[float]:
        """Where the line crosses walls; corners on it count as left of it."""
        dx, dy, left = way
        found = []
        for px, py, qx, qy in self._wall_edges:
            op, oq = dx * py - dy * px - left, dx * qy - dy * qx - left
            if (op >= 0.0) != (oq >= 0.0):
                share = op / (op - oq)
                found.append(dx * (px + share * (qx - px)) + dy * (py + share * (qy - py)))
        return found


def _ends_at(crossing: Crossing) -> tuple[int, ...]:
    """The ends of the edge that is crossed, or the one at which it is."""
    i, j, share = crossing
    if share <= AT_END:
        return (i,)
    return (j,) if share >= 1.0 - AT_END else (i, j)


def heights_over(crossed: Sequence[Crossing], heights: Sequence[float]) -> list[float]:
    """The heights at crossings of edges."""
    return [heights[i] + share * (heights[j] - heights[i]) for i, j, share in crossed]
