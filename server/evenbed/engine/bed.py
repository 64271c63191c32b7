"""The bed between subfloor and top: thickness, where it breaks its limits, and exact volumes.

Nothing is sampled. Within one triangle of the subfloor the thickness is a plane, integrated over what of the triangle
lies in the room. Where the top lies below the subfloor there is no mortar.
"""

import math
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.geometry import Moments, Plane, Ring, clipped, moments_of
from evenbed.engine.ground import Ground, Piece
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
class Part:
    """What of the room lies under one plane of the top and over one triangle, and how thick the bed is there, mm."""

    piece: Piece
    thickness: Plane
    low: float
    high: float

    @cached_property
    def mortared(self) -> Moments:
        """Where there is mortar."""
        if self.low >= 0:
            return self.piece.moments
        return moments_of(clipped(self.piece.ring, self.thickness) if self.high > 0 else ())

    @property
    def volume(self) -> float:
        """Mortar in mm³."""
        return self.mortared.integral(self.thickness)

    def area_above(self, plane: Plane) -> float:
        """Area in mm² where a plane is positive."""
        heights = plane.over(self.piece.ring)
        if max(heights) <= 0:
            return 0.0
        part = self.piece.moments if min(heights) > 0 else moments_of(clipped(self.piece.ring, plane))
        return part.integral(FLAT)


@dataclass(frozen=True)
class Mortar:
    """The space for mortar between the ground and the top."""

    ground: Ground
    top: BedTop

    @cached_property
    def room_parts(self) -> tuple[Part, ...]:
        """The whole room, piece by piece."""
        return tuple(self._part(piece) for piece in self.ground.cut_by(self.top.edges).pieces)

    def _part(self, piece: Piece) -> Part:
        thickness = self.thickness_of(piece.triangle, piece.cell)
        heights = thickness.over(piece.ring)
        return Part(piece, thickness, min(heights), max(heights))

    def thickness_of(self, triangle: int, cell: int) -> Plane:
        """The thickness under one plane of the top, over one triangle."""
        return self.top.cells[cell].plane.minus(self.ground.surface.planes[triangle])

    def volume_over(self, ring: Ring) -> float:
        """Mortar over a simple polygon inside the room, m³, exact; the way it turns gives the sign."""
        pieces = self.ground.pieces_of(self.ground.parts_inside(ring), self.top.edges)
        return math.fsum(self._part(piece).volume for piece in pieces) / 1e9

    def _creases_beyond(self, low: float, high: float) -> list[Spot]:
        """Thicknesses beyond a range where planes of the top meet each other or the walls; none under one plane."""
        if len(self.top.cells) == 1:
            return []
        parts = (part for part in self.room_parts if part.low < low or part.high > high)
        spots = ((at, part.thickness.at(*at)) for part in parts for at in part.piece.ring)
        return [(at, z) for at, z in spots if (z < low or z > high) and self.ground.is_floor(at)]

    def quantities(self, minimum: float, maximum: float) -> Quantities:
        """Volume and the areas beyond the limits, over the whole room."""
        parts = self.room_parts
        thinner, thicker = (p for p in parts if p.low < minimum), (p for p in parts if p.high > maximum)
        volume = math.fsum(part.volume for part in parts)
        thin = math.fsum(part.area_above(_less(minimum - ROUNDING, part.thickness)) for part in thinner)
        thick = math.fsum(part.area_above(_more(maximum + ROUNDING, part.thickness)) for part in thicker)
        return Quantities(volume / 1e9, thin / 1e6, thick / 1e6)

    def thickness_at(self, spot: Point3) -> float:
        """Thickness over a subfloor point."""
        known = self._known.get(spot)
        if known is None:
            known = self._known[spot] = self.top.at(spot[0], spot[1]) - spot[2]
        return known

    @cached_property
    def _known(self) -> dict[Point3, float]:
        return {}

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
        low, high = least[1] - LIMIT_SLACK, most[1] + LIMIT_SLACK
        creases = self._creases_beyond(low, high)
        lower = min((c for c in creases if c[1] < low), key=lambda c: (c[1], c[0]), default=least)
        return lower, min((c for c in creases if c[1] > high), key=lambda c: (-c[1], c[0]), default=most)

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
