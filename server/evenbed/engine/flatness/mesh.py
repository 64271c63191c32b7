"""The bed as triangles to be cut along lines, thousands of times: plain lists, walked from edge to edge.

A line is a `Way`: a unit direction and how far left of the origin it runs. Its profile is straight between the
places where it crosses edges, so a list of knots (distance along the line, height) is exact; nothing is sampled.
A line through a corner is taken a hair beside it, so that it crosses edges only: its knots are the same but for
rounding.
"""

import math
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, edges_of

ONE_KNOT = 1e-7  # mm along a line: nearer knots are one
Edge = tuple[int, int]
Knots = tuple[list[float], list[float]]


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

    Heights are given beside it, so that one mesh serves many of them.
    """

    places: tuple[Point, ...]
    triangles: tuple[Triangle, ...]
    walls: tuple[Ring, ...] = ()

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

    def knots_from(
        self, heights: Sequence[float], way: Way, edge: Edge | None, reach: tuple[float, float]
    ) -> Knots | None:
        """The profile along a line within a reach along it, walked both ways from an edge that it crosses.

        None where no edge is crossed. Its ends are cut at the reach, or lie on the rim.
        """
        if edge is None:
            return None
        ahead = self._march(heights, way, edge, reach[1], 1.0)
        behind = self._march(heights, way, (edge[1], edge[0]), -reach[0], -1.0)
        along = [-t for t in reversed(behind[0])]
        height = behind[1][::-1]
        for t, z in zip(*ahead, strict=True):
            if not along or t > along[-1] + ONE_KNOT:
                along.append(t)
                height.append(z)
        return cut_to(along, height, *reach)

    def _march(self, heights: Sequence[float], way: Way, edge: Edge, far: float, sense: float) -> Knots:
        """Knots from an edge onwards, one beyond `far`; sense -1 walks the line backwards, its distances negated."""
        dx, dy, left = way.dx * sense, way.dy * sense, way.left * sense
        places, apex = self.places, self.apex
        is_left = sense > 0.0
        i, j = edge
        (xi, yi), (xj, yj) = places[i], places[j]
        oi, oj = dx * yi - dy * xi - left, dx * yj - dy * xj - left
        ti, tj = dx * xi + dy * yi, dx * xj + dy * yj
        zi, zj = heights[i], heights[j]
        along: list[float] = []
        height: list[float] = []
        last = -math.inf
        while True:
            off = oi - oj
            share = oi / off if off > 0.0 else 0.5
            t = ti + share * (tj - ti)
            if t > last + ONE_KNOT:
                along.append(t)
                height.append(zi + share * (zj - zi))
                last = t
            k = apex.get((i, j))
            if k is None or t >= far:
                return along, height
            x, y = places[k]
            o = dx * y - dy * x - left
            if o > 0.0 or (is_left and o == 0.0):
                i, oi, ti, zi = k, o, dx * x + dy * y, heights[k]
            else:
                j, oj, tj, zj = k, o, dx * x + dy * y, heights[k]

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

    def stretches(self, way: Way, knots: Knots) -> list[Knots]:
        """A profile cut into what of it lies within the walls."""
        if not self.walls:
            return [knots]
        crossings = sorted(self._crossings(way))
        inside = zip(crossings[::2], crossings[1::2], strict=True)
        cut = (cut_to(*knots, low, high) for low, high in inside)
        return [one for one in cut if one is not None]

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


def cut_to(along: list[float], height: list[float], low: float, high: float) -> Knots | None:
    """The part of a profile from one distance to another; None where less than ONE_KNOT is left."""
    if not along or min(high, along[-1]) - max(low, along[0]) <= ONE_KNOT:
        return None
    if low > along[0]:
        n = bisect_right(along, low + ONE_KNOT)
        first = _height_between(along, height, n - 1 if along[n - 1] <= low else n - 2, low)
        along, height = [low, *along[n:]], [first, *height[n:]]
    if high < along[-1]:
        n = bisect_left(along, high - ONE_KNOT)
        last = _height_between(along, height, n - 1, high)
        along, height = [*along[:n], high], [*height[:n], last]
    return along, height


def _height_between(along: list[float], height: list[float], n: int, at: float) -> float:
    """The height at a place on the piece that begins at knot n."""
    n = min(max(n, 0), len(along) - 2)
    return height[n] + (height[n + 1] - height[n]) * (at - along[n]) / (along[n + 1] - along[n])
