"""The bed between subfloor and top: thickness, where it breaks its limits, and exact volumes.

Nothing is sampled. Within one triangle of the subfloor the thickness is a plane, integrated over what of the triangle
lies in the room. Where the top lies below the subfloor there is no mortar.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import Plane, Ring, clipped, integral_over
from evenbed.engine.ground import Ground
from evenbed.engine.top.facets import BedTop

LIMIT_SLACK = 1e-6  # mm by which a limit may be missed through rounding alone
ROUNDING = 1e-9  # mm, the same for areas: on a nearly flat floor a micron moves a limit's line by metres
FLAT = Plane(1.0, 0.0, 0.0)
Spot = tuple[Point, float]  # a place and the thickness there


@dataclass(frozen=True)
class Thickness:
    """How thick the bed is, and where; negative where the top lies below the subfloor."""

    min: float = height(about="Least")
    max: float = height(about="Greatest")
    mean: float = height(about="Volume over area")
    min_at: Point = height(about="Where it is least")
    max_at: Point = height(about="Where it is greatest")


@dataclass(frozen=True)
class Violation:
    """One place where the bed breaks a limit, and by how much."""

    kind: str = described(about="`no_bed` (top at or below the subfloor), `too_thin` or `too_thick`")
    at: Point = height(about="Where")
    thickness: float = height(about="Thickness there")
    by: float = length(about="How much it misses the limit by")


@dataclass(frozen=True)
class Quantities:
    """Integrals over the room: volume in m³, areas in m²."""

    volume: float
    too_thin_area: float
    too_thick_area: float


@dataclass(frozen=True)
class Mortar:
    """The space for mortar between the ground and the top."""

    ground: Ground
    top: BedTop

    @cached_property
    def room_parts(self) -> tuple[tuple[Ring, Plane], ...]:
        """Piece by piece, what of the room lies under one plane of the top and over one triangle, and its thickness.

        Pieces of cutouts come as clockwise rings of their own.
        """
        return tuple((piece, self.thickness_of(n, m)) for piece, n, m in self.ground.cut_by(self.top.edges))

    def thickness_of(self, triangle: int, cell: int) -> Plane:
        """The thickness under one plane of the top, over one triangle."""
        return self.top.cells[cell].plane.minus(self.ground.surface.planes[triangle])

    def volume_over(self, ring: Ring) -> float:
        """Mortar over a simple polygon inside the room, m³, exact; the way it turns gives the sign."""
        pieces = self.ground.pieces_of(self.ground.parts_inside(ring), self.top.edges)
        return math.fsum(_above(piece, self.thickness_of(n, m)) for piece, n, m in pieces) / 1e9

    @cached_property
    def crease_spots(self) -> tuple[Spot, ...]:
        """Where planes of the top meet each other or the walls, over each triangle; none under a single plane."""
        if len(self.top.cells) == 1:
            return ()
        spots = sorted({(at, thickness.at(*at)) for part, thickness in self.room_parts for at in part})
        return tuple(spot for spot in spots if self.ground.is_floor(spot[0]))

    def quantities(self, minimum: float, maximum: float) -> Quantities:
        """Volume and the areas beyond the limits, over the whole room."""
        parts = self.room_parts
        volume = math.fsum(_above(part, plane) for part, plane in parts)
        thin = math.fsum(_area_above(part, _less(minimum - ROUNDING, plane)) for part, plane in parts)
        thick = math.fsum(_area_above(part, _more(maximum + ROUNDING, plane)) for part, plane in parts)
        return Quantities(volume / 1e9, thin / 1e6, thick / 1e6)

    def thickness_at(self, spot: Point3) -> float:
        """Thickness over a subfloor point."""
        return self.top.at(spot[0], spot[1]) - spot[2]

    def thickness(self, volume: float) -> Thickness:
        """Least, greatest and mean thickness, with their places."""
        (least_at, least), (most_at, most) = self.extremes
        return Thickness(least, most, volume * 1e3 / self.ground.figure.area, least_at, most_at)

    @cached_property
    def extremes(self) -> tuple[Spot, Spot]:
        """Where the bed is thinnest and thickest: a reading or a corner, unless a crease beats it beyond rounding."""
        thinnest = self.ground.most(lambda s: -self.thickness_at(s))
        thickest = self.ground.most(self.thickness_at)
        least, most = ((s[:2], self.thickness_at(s)) for s in (thinnest, thickest))
        creases = self.crease_spots
        lower = min(creases, key=lambda c: (c[1], c[0]), default=least)
        higher = min(creases, key=lambda c: (-c[1], c[0]), default=most)
        least = lower if lower[1] < least[1] - LIMIT_SLACK else least
        return least, higher if higher[1] > most[1] + LIMIT_SLACK else most

    def violations(self, minimum: float, maximum: float) -> tuple[Violation, ...]:
        """Every reading, corner and extreme place beyond a limit, the worst first."""
        at_walls = sorted(self.ground.wall_spots, key=self.thickness_at)
        subfloor = dict.fromkeys((*self.ground.spots, *at_walls[:1], *at_walls[-1:]))
        spots = (*((s[:2], self.thickness_at(s)) for s in subfloor), *self.extremes)
        found = (_violation(at, thickness, minimum, maximum) for at, thickness in spots)
        worst_first = sorted((v for v in found if v), key=lambda v: (-v.by, v.at))
        return tuple({v.at: v for v in worst_first[::-1]}.values())[::-1]


def _violation(at: Point, thickness: float, minimum: float, maximum: float) -> Violation | None:
    if thickness < minimum - LIMIT_SLACK:
        return Violation("no_bed" if thickness <= 0 else "too_thin", at, thickness, minimum - thickness)
    if thickness > maximum + LIMIT_SLACK:
        return Violation("too_thick", at, thickness, thickness - maximum)
    return None


def _less(limit: float, plane: Plane) -> Plane:
    return Plane(limit - plane.a, -plane.b, -plane.c)


def _more(limit: float, plane: Plane) -> Plane:
    return Plane(plane.a - limit, plane.b, plane.c)


def _above(part: Sequence[Point], plane: Plane) -> float:
    """Integral of the plane where it is positive."""
    heights = plane.over(part)
    if min(heights) >= 0:
        return integral_over(part, plane)
    return integral_over(clipped(part, plane), plane) if max(heights) > 0 else 0.0


def _area_above(part: Sequence[Point], plane: Plane) -> float:
    """Area where the plane is positive."""
    heights = plane.over(part)
    if max(heights) <= 0:
        return 0.0
    return integral_over(part if min(heights) > 0 else clipped(part, plane), FLAT)
