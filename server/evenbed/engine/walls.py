"""A ring's walls by where they lie, so that one place is held against the few beside it and not against them all."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, edges_of, nearest_on_segment

Wall = tuple[Point, Point]
WALLS_A_BAND = 2  # in the mean, were no wall longer than a band is wide
HAIR = 1e-6  # mm by which a margin is widened while walls are looked up


@dataclass(frozen=True)
class Walls:
    """The walls of a ring of at least one point, in bands across y."""

    ring: Ring

    def hold(self, x: float, y: float) -> bool:
        """True where (x, y) lies inside the ring; on a wall either answer may come."""
        inside = False
        for (px, py), (qx, qy) in self._bands[self._band_of(y)]:
            if (py > y) != (qy > y) and x < (qx - px) * (y - py) / (qy - py) + px:
                inside = not inside
        return inside

    def are_within(self, margin: float, at: Point) -> bool:
        """True where some wall is no farther than a margin (mm) from a place, inside or outside."""
        return any(math.dist(at, nearest_on_segment(p, q, at)) <= margin for p, q in self._beside(at, margin + HAIR))

    def _beside(self, at: Point, margin: float) -> Iterator[Wall]:
        low, high = at[0] - margin, at[0] + margin
        for band in self._bands[self._band_of(at[1] - margin) : self._band_of(at[1] + margin) + 1]:
            for p, q in band:
                if not ((p[0] < low and q[0] < low) or (p[0] > high and q[0] > high)):
                    yield p, q

    @cached_property
    def _bands(self) -> tuple[tuple[Wall, ...], ...]:
        bands: list[list[Wall]] = [[] for _ in range(self._count)]
        for p, q in edges_of(self.ring):
            first, last = sorted((self._band_of(p[1]), self._band_of(q[1])))
            for n in range(first, last + 1):
                bands[n].append((p, q))
        return tuple(tuple(band) for band in bands)

    @property
    def _count(self) -> int:
        return max(1, len(self.ring) // WALLS_A_BAND)

    def _band_of(self, y: float) -> int:
        """The band that y lies in, or the one nearest to it."""
        low, size = self._measures
        return 0 if size == 0.0 else min(self._count - 1, max(0, math.floor((y - low) / size)))

    @cached_property
    def _measures(self) -> tuple[float, float]:
        """The lowest y, and how wide a band is."""
        ys = [y for _, y in self.ring]
        return min(ys), (max(ys) - min(ys)) / self._count
