"""The rails' frame: u along the rails, v across them, to the left. A turn of the drawing, lengths kept."""

import math
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring
from evenbed.engine.region import Region

SAME_WAY = 1e-9  # degrees: rounding in an angle


@dataclass(frozen=True)
class Frame:
    """A frame turned by `degrees` (in [0, 180)) about the drawing's origin."""

    degrees: float
    cos: float
    sin: float

    def turned(self, at: Point) -> Point:
        """(u, v) from (x, y)."""
        return (at[0] * self.cos + at[1] * self.sin, at[1] * self.cos - at[0] * self.sin)

    def placed(self, u: float, v: float) -> Point:
        """(x, y) from (u, v)."""
        return (u * self.cos - v * self.sin, u * self.sin + v * self.cos)

    def turned_ring(self, ring: Ring) -> Ring:
        """A ring in (u, v)."""
        return tuple(self.turned(at) for at in ring)

    def placed_ring(self, ring: Ring) -> Ring:
        """A ring in (x, y)."""
        return tuple(self.placed(*at) for at in ring)

    def turned_region(self, region: Region) -> Region:
        """A region in (u, v)."""
        return Region(self.turned_ring(region.outer), tuple(self.turned_ring(hole) for hole in region.holes))


def frame_at(degrees: float) -> Frame:
    """The frame whose u runs at `degrees` anticlockwise from +x; half a turn more is the same. Exact at 0 and 90."""
    way = degrees % 180.0
    way = 0.0 if 180.0 - way <= SAME_WAY else way
    if way in (0.0, 90.0):
        return Frame(way, 1.0 - way / 90.0, way / 90.0)
    return Frame(way, math.cos(math.radians(way)), math.sin(math.radians(way)))


def way_of(a: Point, b: Point) -> float:
    """The direction of a line through a and b in degrees, [0, 180); the same from either end."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    if dx < 0.0 or (dx == 0.0 and dy < 0.0):
        dx, dy = -dx, -dy
    way = math.degrees(math.atan2(dy, dx)) % 180.0
    return 0.0 if 180.0 - way <= SAME_WAY else way


def between_ways(a: float, b: float) -> float:
    """The angle between two directions in degrees, 0 to 90."""
    gap = abs(a - b) % 180.0
    return min(gap, 180.0 - gap)
