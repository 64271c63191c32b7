"""The room that a scan is to fill: its rings, asked about many places at once."""

from dataclasses import dataclass

import numpy as np

from evenbed.engine.flatness.lying import longest_stretch
from evenbed.engine.geometry import Ring, box_of, clipped_to_convex, signed_area
from evenbed.engine.touching import regions_of_room
from evenbed.scans.cloud import Numbers, Truth


@dataclass(frozen=True)
class Room:
    """The outline's ring first, then a ring for each cutout, in mm."""

    rings: tuple[Ring, ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """x low, y low, x high, y high."""
        return box_of(self.rings[0])

    @property
    def size(self) -> tuple[float, float]:
        """Width and depth."""
        x_low, y_low, x_high, y_high = self.box
        return x_high - x_low, y_high - y_low

    @property
    def longest(self) -> float:
        """The longest straightedge that fits in it, mm."""
        return longest_stretch(regions_of_room(self.rings[0], self.rings[1:]))

    def holds(self, x: Numbers, y: Numbers) -> Truth:
        """True for each place inside the outline and in no cutout, by counting crossings."""
        inside = np.zeros(x.shape, bool)
        for px, py, qx, qy in self._edges():
            if py != qy:  # a level edge crosses no level line
                crosses = (py > y) != (qy > y)
                crosses &= x < (px if px == qx else (y - py) * ((qx - px) / (qy - py)) + px)
                inside ^= crosses
        return inside

    def nearest_edge(self, x: Numbers, y: Numbers) -> tuple[Numbers, Numbers, Numbers]:
        """The nearest place on any ring for each place, and how far off it is."""
        best = np.full(x.shape, np.inf)
        near_x, near_y = np.zeros(x.shape), np.zeros(x.shape)
        for px, py, qx, qy in self._edges():
            dx, dy = qx - px, qy - py
            along = np.clip(((x - px) * dx + (y - py) * dy) / (dx * dx + dy * dy), 0.0, 1.0)
            ex, ey = px + along * dx, py + along * dy
            off = np.hypot(x - ex, y - ey)
            is_nearer = off < best
            best, near_x, near_y = (np.where(is_nearer, a, b) for a, b in ((off, best), (ex, near_x), (ey, near_y)))
        return near_x, near_y, best

    @property
    def corners(self) -> Numbers:
        """Every corner of every ring, one a row."""
        return np.array([corner for ring in self.rings for corner in ring])

    def area_in(self, x: float, y: float, width: float, depth: float) -> float:
        """Area in mm² that the room has in an upright rectangle from its low-left corner."""
        square = ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))
        areas = [abs(signed_area(clipped_to_convex(ring, square))) for ring in self.rings]
        return max(0.0, areas[0] - sum(areas[1:]))

    def _edges(self) -> list[tuple[float, float, float, float]]:
        return [(*p, *q) for ring in self.rings for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)]
