"""Falls to a drain before their heights are known: where each plane holds, and what its height is made of."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.top.facets import BedTop, Cell, CellEdge

NONE = Plane(0.0, 0.0, 0.0)
Rates = tuple[float, float, float]
"""How fast a height follows a figure: everywhere alike, by the share of the walls' height, and by the way."""


class Spot(NamedTuple):
    """A corner of a piece of floor: there the top stands share (0 to 1) of the way from the drain to the walls.

    `way` is how far, in mm, it lies beyond what is level; `subfloor` is z.
    """

    at: Point
    share: float
    way: float
    subfloor: float

    def moved_by(self, rates: Rates) -> float:
        """How fast the top's height there follows a figure."""
        return rates[0] + rates[1] * self.share + rates[2] * self.way


@dataclass(frozen=True)
class Fall:
    """One plane of the falls: height = drain + share × (walls − drain) + fall × way."""

    cell: Cell
    share: Plane = NONE
    way: Plane = NONE

    def moved_by(self, rates: Rates) -> Plane:
        """How fast the plane's height follows a figure, place by place."""
        alike, share, way = rates
        rows = zip((alike, 0.0, 0.0), _numbers(self.share), _numbers(self.way), strict=True)
        return Plane(*(a + share * s + way * w for a, s, w in rows))


@dataclass(frozen=True)
class Falls:
    """The planes, and the longest way from a level wall to the drain's edge (mm), with the corner where it begins."""

    planes: tuple[Fall, ...]
    longest: float
    at: Point

    def under(self, drain: float, wall: float, fall: float) -> BedTop:
        """The top of bed with the drain's edge and the level walls at these heights."""
        return BedTop(tuple(_raised(one, drain, wall - drain, fall) for one in self.planes))

    def spots(self, ground: Ground) -> Iterator[Spot]:
        """Every corner of every piece of floor: the top is thinnest and thickest at some of them."""
        edges: tuple[CellEdge, ...] = tuple(one.cell.edge for one in self.planes)
        for corner in ground.cut_by(edges).corners:
            one, at = self.planes[corner.cell], corner.at
            yield Spot(at, one.share.at(*at), one.way.at(*at), corner.subfloor)


def _raised(one: Fall, drain: float, rise: float, fall: float) -> Cell:
    return Cell(one.moved_by((drain, rise, fall)), one.cell.keep, one.cell.polygons)


def _numbers(plane: Plane) -> tuple[float, float, float]:
    return plane.a, plane.b, plane.c
