"""The bed between subfloor and top: thickness, where it breaks its limits, and exact volumes.

Nothing is sampled. Within one triangle of the subfloor the thickness is a plane; each triangle is cut by the room's
true outline and the plane integrated over what is left. Where the top lies below the subfloor there is no mortar.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.room import Point
from evenbed.engine.geometry import (
    Box,
    Plane,
    Ring,
    box_of,
    boxes_meet,
    clipped,
    clipped_to_convex,
    crossing_of,
    edges_of,
    integral_over,
    is_inside,
)
from evenbed.engine.outline import Figure
from evenbed.engine.surface import Surface

ON_THE_EDGE = 1e-6  # mm within which a point of the surface counts as inside the room
LIMIT_SLACK = 1e-6  # mm by which a limit may be missed through rounding alone
ROUNDING = 1e-9  # mm, the same for areas: on a nearly flat floor a micron moves a limit's line by metres
FLAT = Plane(1.0, 0.0, 0.0)
Spot3 = tuple[float, float, float]


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
    """The space for mortar: the subfloor's surface, the room's figure, and the plane of the top."""

    surface: Surface
    figure: Figure
    top: Plane

    @cached_property
    def thickness_planes(self) -> tuple[Plane, ...]:
        """The thickness over each triangle."""
        return tuple(self.top.minus(plane) for plane in self.surface.planes)

    @cached_property
    def boxes(self) -> tuple[Box, ...]:
        """The box round each triangle."""
        return tuple(box_of(self.corners(n)) for n in range(len(self.surface.triangles)))

    def corners(self, n: int) -> Ring:
        """The corners of triangle n on the drawing."""
        points = self.surface.points
        return tuple(points[i][:2] for i in self.surface.triangles[n])

    @cached_property
    def room_parts(self) -> tuple[tuple[int, Ring], ...]:
        """Triangle by triangle, the part inside the room; holes come as clockwise rings of their own."""
        return tuple(part for ring in self.figure.rings for part in self.parts_inside(ring))

    def parts_inside(self, ring: Ring) -> Iterator[tuple[int, Ring]]:
        """Each triangle's part inside a ring, in the ring's own sense of turning."""
        whole = box_of(ring)
        edges = [(box_of(edge), edge) for edge in edges_of(ring)]
        is_hole = integral_over(ring, FLAT) < 0
        for n, box in enumerate(self.boxes):
            if not boxes_meet(box, whole):
                continue
            corners = self.corners(n)
            if any(boxes_meet(box, edge_box) for edge_box, _ in edges):
                part = clipped_to_convex(ring, corners)
                if len(part) > 2:
                    yield n, part
            elif is_inside(ring, *corners[0]):
                yield n, corners[::-1] if is_hole else corners

    def volume_over(self, ring: Ring) -> float:
        """Mortar over a simple polygon inside the room, m³, exact; the way it turns gives the sign."""
        parts = self.parts_inside(ring)
        return math.fsum(_above(part, self.thickness_planes[n]) for n, part in parts) / 1e9

    def quantities(self, minimum: float, maximum: float) -> Quantities:
        """Volume and the areas beyond the limits, over the whole room."""
        planes = self.thickness_planes
        volume = math.fsum(_above(part, planes[n]) for n, part in self.room_parts)
        thin = math.fsum(_area_above(part, _less(minimum - ROUNDING, planes[n])) for n, part in self.room_parts)
        thick = math.fsum(_area_above(part, _more(maximum + ROUNDING, planes[n])) for n, part in self.room_parts)
        return Quantities(volume / 1e9, thin / 1e6, thick / 1e6)

    @cached_property
    def spots(self) -> tuple[Spot3, ...]:
        """Subfloor points (x, y, z) that can be extreme: readings in the room, and corners of the room."""
        inside = [p for p in self.surface.points if self.figure.holds(p[:2], ON_THE_EDGE)]
        standing = {p[:2] for p in self.surface.points}
        corners = [c for ring in self.figure.rings for c in ring if c not in standing]
        return (*inside, *((x, y, self.surface.height_at(x, y)) for x, y in corners))

    @cached_property
    def wall_spots(self) -> tuple[Spot3, ...]:
        """Subfloor points where an edge between two readings crosses a wall."""
        walls = [(box_of(e), e) for ring in self.figure.rings for e in edges_of(ring)]
        found = []
        for p, q in self.surface.edges:
            box = box_of((p[:2], q[:2]))
            near = (wall for wall_box, wall in walls if boxes_meet(box, wall_box))
            crossings = (crossing_of(p[:2], q[:2], *wall) for wall in near)
            found += [_on_edge(p, q, at) for at in crossings if at is not None]
        return tuple(found)

    def thickness_at(self, spot: Spot3) -> float:
        """Thickness over a subfloor point."""
        return self.top.at(spot[0], spot[1]) - spot[2]

    def thickness(self, volume: float) -> Thickness:
        """Least, greatest and mean thickness, with their places."""
        least = _most(self, lambda s: -self.thickness_at(s))
        greatest = _most(self, self.thickness_at)
        mean = volume * 1e3 / self.figure.area
        return Thickness(self.thickness_at(least), self.thickness_at(greatest), mean, least[:2], greatest[:2])

    def violations(self, minimum: float, maximum: float) -> tuple[Violation, ...]:
        """Every reading, corner and extreme place beyond a limit, the worst first."""
        extremes = sorted(self.wall_spots, key=self.thickness_at)
        spots = dict.fromkeys((*self.spots, *extremes[:1], *extremes[-1:]))
        found = (_violation(s[:2], self.thickness_at(s), minimum, maximum) for s in spots)
        worst_first = sorted((v for v in found if v), key=lambda v: (-v.by, v.at))
        return tuple({v.at: v for v in worst_first[::-1]}.values())[::-1]


def _on_edge(p: Spot3, q: Spot3, at: Point) -> Spot3:
    """A place on the edge between two points, at the height the edge has there."""
    share = math.dist(p[:2], at) / math.dist(p[:2], q[:2])
    return at[0], at[1], p[2] + share * (q[2] - p[2])


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
    heights = [plane.at(x, y) for x, y in part]
    if min(heights) >= 0:
        return integral_over(part, plane)
    return integral_over(clipped(part, plane), plane) if max(heights) > 0 else 0.0


def _area_above(part: Sequence[Point], plane: Plane) -> float:
    """Area where the plane is positive."""
    heights = [plane.at(x, y) for x, y in part]
    if max(heights) <= 0:
        return 0.0
    return integral_over(part if min(heights) > 0 else clipped(part, plane), FLAT)


def highest_and_lowest(mortar: Mortar) -> tuple[Spot3, Spot3]:
    """The subfloor's highest and lowest points in the room, with their places."""
    return _most(mortar, lambda s: s[2]), _most(mortar, lambda s: -s[2])


def _most(mortar: Mortar, measure: Callable[[Spot3], float]) -> Spot3:
    """The spot that measures most: a reading or corner, unless a wall's crossing beats it by more than rounding.

    Equal ones are placed by the lowest x, then y, so that the answer does not hang on the order of reading.
    """
    best = min(mortar.spots, key=lambda s: (-measure(s), s))
    rival = min(mortar.wall_spots, key=lambda s: (-measure(s), s), default=best)
    return rival if measure(rival) > measure(best) + LIMIT_SLACK else best
