"""How much of the floor lies within a depth of the top's lowest bed, and what would be chipped there: exact.

The spare thickness is a plane over each triangle, so the area below a level is quadratic in the level there, and the
volume cubic.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from evenbed.engine.chipping.convex import Piece
from evenbed.engine.geometry import turn_of

FLAT = 1e-6  # mm: a triangle that rises less than this is at one level, and below it only a little further on


@dataclass(frozen=True)
class Slope:
    """One triangle: its spare thickness at its corners, sorted, in mm, and its area in mm²."""

    low: float
    middle: float
    high: float
    area: float

    def area_below(self, level: float) -> float:
        """Where the spare thickness is less than a level, mm²."""
        low, middle, high = self.low, self.middle, self.high
        if high - low <= FLAT:
            return self.area if level > high + FLAT else 0.0
        if level <= low:
            return 0.0
        if level >= high:
            return self.area
        if level < middle:
            return self.area * (level - low) ** 2 / ((middle - low) * (high - low))
        return self.area * (1.0 - (high - level) ** 2 / ((high - middle) * (high - low)))

    def volume_below(self, level: float) -> float:
        """Between the level and the spare thickness, where that is less, mm³."""
        low, middle, high = self.low, self.middle, self.high
        if level <= low:
            return 0.0
        under = level - (low + middle + high) / 3.0
        if level >= high:
            return self.area * under
        if level < middle:
            return self.area * (level - low) ** 3 / (3.0 * (middle - low) * (high - low))
        return self.area * (under + (high - level) ** 3 / (3.0 * (high - middle) * (high - low)))


@dataclass(frozen=True)
class Below:
    """Part of the floor as triangles."""

    slopes: tuple[Slope, ...]

    def area(self, level: float) -> float:
        """Where the spare thickness is less than a level, m²."""
        return math.fsum(slope.area_below(level) for slope in self.slopes) / 1e6

    def volume(self, level: float) -> float:
        """What must be chipped for the spare thickness to be nowhere less than a level, m³."""
        return math.fsum(slope.volume_below(level) for slope in self.slopes) / 1e9

    @cached_property
    def levels(self) -> tuple[float, ...]:
        """Every level at which the way the area grows can change, ascending."""
        return tuple(sorted({level for s in self.slopes for level in (s.low, s.middle, s.high)}))


def below_of(pieces: Iterable[Piece]) -> Below:
    """The triangles of some pieces."""
    return Below(tuple(slope for piece in pieces for slope in _slopes(piece)))


def _slopes(piece: Piece) -> Iterable[Slope]:
    first, height = piece.ring[0], piece.heights[0]
    rows = list(zip(piece.ring, piece.heights, strict=True))[1:]
    for (p, u), (q, v) in pairwise(rows):
        area = turn_of(first, p, q) / 2.0
        if area > 0.0:
            low, middle, high = sorted((height, u, v))
            yield Slope(low, middle, high, area)
