"""Walking within one piece of floor: straight where nothing is in the way, else round its inner corners."""

import heapq
import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, between, edges_of, is_inside, nearest_on_segment, signed_area, turn_of

TOUCHING = 1e-3  # mm within which a place lies on a wall
HAIR = 1e-6  # share of a way that may lie on a wall and be no crossing of it


@dataclass(frozen=True)
class Inside:
    """One piece, a simple polygon that runs anticlockwise."""

    ring: Ring

    @cached_property
    def middle(self) -> Point:
        """Its centroid; where that lies outside, the place on its walls that is nearest to it."""
        at = _centroid(self.ring)
        if is_inside(self.ring, *at):
            return at
        return min(
            (nearest_on_segment(p, q, at) for p, q in edges_of(self.ring)), key=lambda near: math.dist(near, at)
        )

    def walk(self, start: Point, end: Point) -> float:
        """The shortest walk between two places in it or on its walls, mm."""
        if not self._inner_corners or self._is_clear(start, end):
            return math.dist(start, end)
        return self._walk_round(start, end)

    @cached_property
    def _inner_corners(self) -> tuple[Point, ...]:
        before, after = (self.ring[-1], *self.ring[:-1]), (*self.ring[1:], self.ring[0])
        corners = zip(before, self.ring, after, strict=True)
        return tuple(q for p, q, r in corners if turn_of(p, q, r) < -HAIR * math.dist(p, q) * math.dist(q, r))

    def _walk_round(self, start: Point, end: Point) -> float:
        queue, done = [(0.0, start)], set[Point]()
        while queue:
            walked, at = heapq.heappop(queue)
            if at == end:
                return walked
            if at not in done:
                done.add(at)
                for to in (end, *self._inner_corners):
                    if to not in done and self._is_clear(at, to):
                        heapq.heappush(queue, (walked + math.dist(at, to), to))
        return math.dist(start, end)

    def _is_clear(self, start: Point, end: Point) -> bool:
        """Whether the straight way stays in the piece: between walls that it meets it is in it or on a wall."""
        meets = sorted({0.0, 1.0, *self._meetings(start, end)})
        stretches = ((a, b) for a, b in pairwise(meets) if b - a > HAIR)
        return all(self._holds(between(start, end, (a + b) / 2.0)) for a, b in stretches)

    def _meetings(self, start: Point, end: Point) -> list[float]:
        """At which shares of the way the walls' lines are met within the walls."""
        found = []
        for p, q in edges_of(self.ring):
            one, other = turn_of(p, q, start), turn_of(p, q, end)
            if one != other and 0.0 < one / (one - other) < 1.0:
                found.append(one / (one - other))
        return found

    def _holds(self, at: Point) -> bool:
        return is_inside(self.ring, *at) or any(_is_on(p, q, at) for p, q in edges_of(self.ring))


def _is_on(p: Point, q: Point, at: Point) -> bool:
    return math.dist(at, nearest_on_segment(p, q, at)) <= TOUCHING


def _centroid(ring: Ring) -> Point:
    (x0, y0), area = ring[0], signed_area(ring)
    terms = [(ax - x0, ay - y0, bx - x0, by - y0) for (ax, ay), (bx, by) in edges_of(ring)]
    mx = math.fsum((a + c) * (a * d - c * b) for a, b, c, d in terms)
    my = math.fsum((b + d) * (a * d - c * b) for a, b, c, d in terms)
    return (x0 + mx / (6.0 * area), y0 + my / (6.0 * area))
