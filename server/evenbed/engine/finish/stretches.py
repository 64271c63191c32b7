"""The finished floor along a straight line in the room: exact, whatever planes of the top the line passes over."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import between, box_of, boxes_meet, crossing_of, nearest_on_segment
from evenbed.engine.ground import Ground, on_edge
from evenbed.engine.top.facets import BedTop, Piece

ON_IT = 0.01  # mm within which a spot of the subfloor counts as on the line
ZTop = tuple[Point, float]


@dataclass(frozen=True)
class Stretch:
    """From one place to another, which may be the same, under a top."""

    start: Point
    end: Point
    top: BedTop

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """From which share of the way to which one plane of the top holds, from the start to the end."""
        return self.top.pieces(self.start, self.end)

    def tops_at(self, share: float) -> Iterable[ZTop]:
        """The place at a share of the way with the top's height there: twice where two planes meet there."""
        at = between(self.start, self.end, share)
        return ((at, plane.at(*at)) for a, b, plane in self.pieces if a <= share <= b)

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """Heights of the top where it can be least or greatest: at both ends and where its plane changes."""
        shares = {share for a, b, _ in self.pieces for share in (a, b)}
        return tuple(z for share in sorted(shares) for _, z in self.tops_at(share))

    def least_thickness(self, ground: Ground) -> float:
        """The least of top less subfloor along the way, negative where the top lies below the subfloor."""
        return self.thicknesses(ground)[0]

    def thicknesses(self, ground: Ground) -> tuple[float, float]:
        """The least and the greatest of top less subfloor along the way, negative where the top is the lower."""
        shares = {share for a, b, _ in self.pieces for share in (a, b)}
        own = [z - ground.surface.height_at(*at) for share in shares for at, z in self.tops_at(share)]
        met = [z - s[2] for s in self._spots_of(ground) for _, z in self.tops_at(self._share_of(s[:2]))]
        return min(own + met), max(own + met)

    def _spots_of(self, ground: Ground) -> Iterable[Point3]:
        """Where the way passes a reading or crosses an edge between two: there the subfloor's slope can change."""
        x0, y0, x1, y1 = box_of((self.start, self.end))
        box = (x0 - ON_IT, y0 - ON_IT, x1 + ON_IT, y1 + ON_IT)
        for p, q in ground.surface.edges:
            if boxes_meet(box, box_of((p[:2], q[:2]))):
                crossing = crossing_of(p[:2], q[:2], self.start, self.end)
                spots = (p, q) if crossing is None else (p, q, on_edge(p, q, crossing))
                yield from (spot for spot in spots if self._passes(spot[:2]))

    def _passes(self, at: Point) -> bool:
        return math.dist(at, nearest_on_segment(self.start, self.end, at)) <= ON_IT

    def _share_of(self, at: Point) -> float:
        """How much of the way it is to a place beside it."""
        length = math.dist(self.start, self.end)
        near = nearest_on_segment(self.start, self.end, at)
        return min(1.0, math.dist(self.start, near) / length) if length > 0.0 else 0.0
